import { identifyPart, type LeadReading } from '#core/identify'
import { whenIdle } from '#web/live'
import { type Bench, meterOf } from './bench.ts'

/** What a meter might show first, by its name. */
const imagined: Readonly<Record<string, readonly LeadReading[]>> = {
  digital: [
    { plus: 2, minus: 1, shows: { kind: 'volts', volts: 0.65 } },
    { plus: 1, minus: 2, joined: 'minus', shows: { kind: 'ohms', ohm: 1.2e6, range: '2M' } },
    { plus: 1, minus: 3, shows: { kind: 'open' } },
    { plus: 3, minus: 1, shows: { kind: 'open' } },
  ],
  needle: [
    { plus: 2, minus: 1, shows: { kind: 'ohms', ohm: 900, range: 'x100' } },
    { plus: 1, minus: 2, joined: 'minus', shows: { kind: 'open', range: 'x1k' } },
    { plus: 1, minus: 3, shows: { kind: 'open', range: 'x100' } },
    { plus: 3, minus: 1, shows: { kind: 'open', range: 'x100' } },
  ],
}

const isReady = new Set<string>()

/**
 * Answers to imagined readings while nobody waits, once for each meter: the curves of imagined parts are read, and the
 * code is warm, before the first true reading is typed.
 *
 * @param isWanted says whether nothing was typed yet
 */
export async function makeReady(bench: Bench, isWanted: () => boolean): Promise<void> {
  const { meter: name, leads } = bench
  const key = `${name} ${leads}`
  if (isReady.has(key)) return
  const all = (imagined[name] ?? []).filter((r) => leads === 3 || (r.plus < 3 && r.minus < 3 && r.joined === undefined))
  for (let n = 1; n <= all.length; n++) {
    await whenIdle()
    if (!isWanted()) return
    identifyPart(all.slice(0, n), { meter: meterOf(bench), leads })
  }
  isReady.add(key)
}
