import { describe, expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { onBench, positionFromText, standInsAt } from '#bench'
import { demoJob } from '#catalog'
import { makeStage, overTemperature, reBias, typeNumbers } from '#core/stage'
import { expectRelative } from '#core/testing'

interface Written {
  readonly positions: Readonly<Record<string, { readonly circuit?: object }>>
}
const circuits = Object.entries((parse(demoJob) as Written).positions).filter(([, p]) => p.circuit !== undefined)

describe('stand-ins at the positions of the demo job', () => {
  test('are those of the whole way: every limit followed to its end, every search of resistors to the nearest values', async () => {
    expect(circuits.length).toBe(6)
    await onBench({ now: () => '2026-01-05T10:00:00Z' }, async (bench) => {
      let [played, changed, beyond] = [0, 0, 0]
      for (const [ref, { circuit }] of circuits) {
        const read = positionFromText(stringify(circuit), ref)
        const { result, position } = await standInsAt(bench, read)
        const named = (name: string) => bench.types.find((t) => t.type === name)!
        const first = typeNumbers(named('2N1305'), result.need.gain!.atA)
        const parts = { [position!.place]: first }
        for (const { name, play } of [...result.taken, ...result.notKnown, ...result.refused]) {
          if (play === undefined) continue
          played++
          const other = typeNumbers(named(name), result.need.gain!.atA)
          const { limits } = overTemperature(makeStage(position!, { [position!.place]: other }))
          const told = limits.find((l) => l.limit === play.verdict.limit)
          expect(told?.failsAtC, `${ref} ${name}`).toBe(play.verdict.failsAtC)
          if (play.changes === undefined && play.isBeyond !== true) continue
          const whole = reBias(position!, parts, other)
          expect(play.changes, `${ref} ${name}`).toEqual(whole?.changes)
          if (play.isBeyond === true) beyond++
          else changed++
          if (play.isBeyond === true && whole?.nearest !== undefined)
            expect(whole.nearest.after.drift, `${ref} ${name}`).toBeGreaterThan(whole.before.drift)
        }
        expectRelative(result.need.own!.margin, overMargin(position!, parts), 1e-9, `${ref} margin`)
      }
      // nearly every transistor of the catalog of that polarity, in each of the six stages
      expect(played).toBeGreaterThan(600)
      expect(changed).toBeGreaterThan(50)
      expect(beyond).toBeGreaterThan(0)
    })
  }, 120_000)
})

/** Least that is spare of the limits a verdict counts. */
function overMargin(position: Parameters<typeof makeStage>[0], parts: Parameters<typeof makeStage>[1]): number {
  const { limits } = overTemperature(makeStage(position, parts))
  const isInside = (t: number | undefined): boolean =>
    t !== undefined && t >= position.demands.fromC && t <= position.demands.toC
  const hard = limits.filter((l) => l.isSoft !== true)
  const drifts = limits.filter((l) => l.isSoft === true && isInside(l.failsAtC))
  const counted = hard.some((l) => isInside(l.failsAtC)) ? hard : drifts.length > 0 ? drifts : limits
  return Math.min(...counted.map((l) => l.spare))
}
