import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { nearestPreferred } from '#core/resistor'
import { exactly, type PartNumbers, type Position, reBias, restOf, type TransistorNumbers } from '#core/stage'
import { asNetlist, readData } from './as-netlist.ts'
import { exampleOhm, partsFor, positionOf, transistor } from './positions.ts'
import { changed, leastOfAll, looked, silicon, type Tried, withOhm } from './re-biased.ts'

const pairs = ['direct-pair', 'push-pull', 'push-pull-diode', 'push-pull-thermistor']

/** A stage of two transistors and more for each number, the part it was made for and another for its place. */
function drawn(k: number) {
  const random = new Random(78, `pair ${k}`)
  const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
  const id = pairs[k % pairs.length]!
  const ohm = Object.fromEntries(
    Object.entries(exampleOhm(id)).map(([ref, r]) => [ref, nearestPreferred(r * between(0.9, 1.1), 'E24')]),
  )
  const position = positionOf(id, { polarity: 'NPN', ohm })
  const gain = between(50, 110)
  const germanium: Partial<TransistorNumbers> = { polarity: 'NPN', leakageA: exactly(between(1e-6, 5e-6)) }
  const part = transistor({ ...germanium, gain: exactly(gain) })
  const other =
    random.uniform() < 0.6
      ? silicon(between(80, 400), { polarity: 'NPN' })
      : transistor({ ...germanium, name: 'other', gain: exactly(gain * between(0.7, 1.5)) })
  return { k, position, part, other }
}

/** Whether a stage has the room it had, or what the signal needs. */
function hasRoom({ position, part, other }: Tried): (stage: Position) => boolean {
  const before = restOf(position, partsFor(position, part))!
  return (stage) => {
    const rest = restOf(stage, partsFor(stage, other))!
    const needed = (k: number): number => Math.min(position.demands.swingV, before.rooms[k]!) - 1e-9
    return rest.vce >= 0.2 && rest.rooms.every((room, k) => room >= needed(k))
  }
}

const costOf = (changes: readonly { fromOhm: number; toOhm: number }[] = []): number =>
  changes.reduce((sum, c) => sum + Math.abs(Math.log(c.toOhm / c.fromOhm)), 0)

describe('stages of two and more transistors', () => {
  const all = Array.from({ length: 40 }, (_, k) => drawn(k))

  test.each(['E12', 'E24'] as const)(
    '%s: the least change of a search of all values, or none where there is none',
    (series) => {
      let found = 0
      for (const { k, position, part, other } of all.slice(0, series === 'E12' ? 40 : 8)) {
        const tried: Tried = { position, part, other, series, span: 2 }
        const got = reBias(position, partsFor(position, part), other, { series, span: 2 })!
        const best = leastOfAll(tried, hasRoom(tried))
        expect(got.changes?.length, `pair ${k}`).toBe(best?.count)
        expect(Math.abs(costOf(got.changes) - (best?.cost ?? 0)), `pair ${k}`).toBeLessThan(1e-9)
        if (best !== undefined) found++
      }
      expect(found).toBeGreaterThan(series === 'E12' ? 10 : 2)
    },
  )

  test('over a decade of E24: I_C within 5 % and no worse drift, by whole operating points', () => {
    let found = 0
    for (const { k, position, part, other } of all.slice(0, 24)) {
      const got = reBias(position, partsFor(position, part), other)!
      if (got.changes === undefined) continue
      found++
      const before = looked(position, part)
      const after = looked(withOhm(position, changed(got.changes)), other)
      expect(Math.abs(after.ic / before.ic - 1), `pair ${k}`).toBeLessThanOrEqual(0.05 + 1e-6)
      expect(after.drift, `pair ${k}`).toBeLessThanOrEqual(before.drift * (1 + 1e-6))
    }
    expect(found).toBeGreaterThan(8)
  })
})

describe('a netlist is re-biased as its template is', () => {
  const numbers = ({ name, material, gain, leakageA, vbeV }: TransistorNumbers) => ({
    name,
    material,
    gain: gain.usual,
    leakage: leakageA.usual,
    vbe: vbeV.usual,
    vce: 5,
  })
  const cases: readonly { readonly id: string; readonly other: TransistorNumbers; readonly series: 'E12' | 'E24' }[] = [
    { id: 'fixed-bias', other: silicon(250), series: 'E24' },
    { id: 'divider', other: silicon(200), series: 'E24' },
    { id: 'divider', other: silicon(200), series: 'E12' },
    { id: 'collector-feedback', other: silicon(350), series: 'E24' },
    { id: 'direct-pair', other: transistor({ name: 'other', gain: exactly(110) }), series: 'E12' },
  ]
  test.each(cases)('$id, $other.name, $series', ({ id, other, series }) => {
    const position = positionOf(id)
    const parts = partsFor(position)
    const file = {
      swing: 0.5,
      parts: Object.fromEntries(Object.entries(parts).map(([ref, n]) => [ref, numbers(n as TransistorNumbers)])),
    }
    const read = readData(asNetlist(position, parts, file))
    const own = Object.fromEntries(
      Object.entries(read.wanted).map(([ref, w]): [string, PartNumbers] => [
        ref,
        (w as { numbers: PartNumbers }).numbers,
      ]),
    )
    const one = reBias(position, parts, other, { series })!
    const two = reBias(read.position, own, other, { series })!
    expect(one.changes?.length).toBeGreaterThan(0)
    expect(two.changes).toEqual(one.changes)
    expect(two.after!.ic).toBe(one.after!.ic)
  })
})
