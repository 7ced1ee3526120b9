import { describe, expect, test } from 'vitest'
import { sampleTester } from '#catalog'
import type { Tester } from '#core/tester'
import {
  asFound,
  type FoundValue,
  foundDefaults,
  foundExampleCsv,
  foundSheet,
  mendOf,
  readFound,
  testerParts,
} from '#core/upkeep'
import reference from './found.ref.json' with { type: 'json' }

const larkfield = sampleTester('larkfield')!
const partOf = (t: Tester, id: string) => testerParts(t).find((p) => p.id === id)!
const found = (t: Tester, id: string, value: number, u = 0): FoundValue => ({ part: partOf(t, id), value, u })

/** Proper values of the parts the reference changes none of; the sample states its 30 mA shunt as found. */
const rangeError = (t: Tester, parts: Readonly<Record<string, number>>, range: string) =>
  asFound(
    t,
    Object.entries(parts).map(([id, value]) => found(t, id, value)),
    foundDefaults,
  ).ranges.find((r) => r.range.id === range)!

describe('what parts do to a range is what the network simulator says', () => {
  test.each(reference.cases.map((c) => [`${c.tester} ${c.range}, ${Object.keys(c.parts)}`, c] as const))(
    '%s',
    (_, c) => {
      const t = sampleTester(c.tester)!
      const parts = Object.fromEntries(Object.entries(c.parts).filter(([, v]) => v !== undefined)) as Record<
        string,
        number
      >
      // the reference is printed to about nine digits of a current of about full scale
      expect(rangeError(t, parts, c.range).before.error).toBeCloseTo(c.shown, 7)
    },
  )
})

describe('a part as found', () => {
  const one = (id: string, value: number, u: number) =>
    asFound(larkfield, [found(larkfield, id, value, u)], foundDefaults).parts[0]!

  test('conforms, does not, or is undecided by its guard band', () => {
    // JCGM 106:2012, 8.3: the band of a one-sided limit at 95 % is 1.645 u
    const contact = one('contact 1 A', 2e-3, 0.5e-3)
    expect(contact.accepted.max).toBeCloseTo(3.18e-3 - 1.6449 * 0.5e-3, 7)
    expect(contact.word).toBe('conforms')
    expect(one('contact 1 A', 3e-3, 0.5e-3).word).toBe('undecided')
    expect(one('contact 1 A', 5e-3, 0.5e-3).word).toBe('does not conform')
  })

  test('moves its own range alone, and a movement moves all', () => {
    expect(one('shunt 10 mA', 12.1, 0).effects.map((e) => e.range)).toEqual(['10 mA'])
    expect(one('coil', 1200, 0).effects).toHaveLength(11)
    expect(one('movement', 101e-6, 0).effects).toHaveLength(12)
    expect(one('leads', 0.1, 0).effects).toEqual([])
  })

  test('that is as it should be moves nothing', () => expect(one('shunt 10 mA', 11.1, 0).effects).toEqual([]))
})

describe('the totals', () => {
  test('count the class and every tolerance, each through the network', () => {
    const { before, after } = rangeError(larkfield, { leads: 0.01 }, '100 uA')
    // the movement alone: its class of 2 % taken as evenly spread, twice its standard uncertainty (JCGM 100:2008, 4.3.7)
    expect(before.expanded).toBeCloseTo((2 * 0.02) / Math.sqrt(3), 3)
    expect(after).toEqual(before)
  })

  test('become better by mending what is out, and only there', () => {
    const { ranges, parts } = asFound(larkfield, readFound(foundExampleCsv, 'found.csv', larkfield), foundDefaults)
    const out = parts.filter((p) => p.word === 'does not conform')
    expect(out.map((p) => p.part.id)).toEqual([
      'shunt 10 mA',
      'shunt 100 mA',
      'contact 1 A',
      'multiplier 10 V',
      'leads',
      'cell collector',
    ])
    const moved = ranges.filter((r) => r.before.error !== r.after.error)
    expect(moved.map((r) => r.range.id)).toEqual(['10 mA', '100 mA', '1 A', '10 V'])
    for (const r of moved) expect(Math.abs(r.after.error)).toBeLessThan(Math.abs(r.before.error))
  })

  test('of a contact on a range of high current grow with its shunt growing small', () => {
    const { resistances } = asFound(larkfield, [found(larkfield, 'leads', 46e-3)], foundDefaults)
    const high = resistances.at(-1)!
    expect(high.range.id).toBe('3 A')
    // 1 mohm beside 35.7 + 1 mohm: 2.7 % more voltage across the movement
    expect(high.perMilliohm).toBeCloseTo(1 / 36.7, 3)
    expect(high.leadV).toBeCloseTo(0.138, 12)
  })
})

describe('a mend', () => {
  test('is a resistor or a pair within half the tolerance, with its power', () => {
    const { take, place } = mendOf(partOf(larkfield, 'shunt 10 mA'), 12.1, foundDefaults)
    expect(place).toBe('instead')
    expect(Math.abs(take!.ohm / 11.1 - 1)).toBeLessThanOrEqual(0.005)
    const heat = take!.members.map((m) => m.powerW!)
    // 9.9 mA through the shunt
    expect(heat.reduce((a, b) => a + b)).toBeCloseTo(9.9e-3 ** 2 * take!.ohm, 9)
  })

  test('of a shunt too small for a shop is a trim of what is there', () => {
    const high = mendOf(partOf(larkfield, 'shunt 3 A'), 38e-3, foundDefaults)
    expect(high.place).toBe('across')
    expect(1 / (1 / 38e-3 + 1 / high.take!.ohm)).toBeCloseTo(high.after!.value, 12)
    expect(Math.abs(high.after!.value / 35.7e-3 - 1)).toBeLessThanOrEqual(0.01)
    const low = mendOf(partOf(larkfield, 'shunt 3 A'), 30e-3, foundDefaults)
    expect(low.take).toBeUndefined()
    expect(low.say).toMatch(/wind it of resistance wire/)
  })
})

describe('the sheet', () => {
  test.each(['larkfield', 'marlpit'])('of %s, filled with proper values, conforms throughout', (id) => {
    const t = sampleTester(id)!
    const lines = foundSheet(t).trim().split('\n')
    expect(lines).toHaveLength(testerParts(t).length + 1)
    const filled = testerParts(t)
      .filter((p) => p.nominal !== undefined)
      .map((p) => `${p.id},${p.nominal} ${p.unit},0.01 %`)
    const { parts, ranges } = asFound(
      t,
      readFound(['part,measured,accuracy', ...filled].join('\n'), 's.csv', t),
      foundDefaults,
    )
    expect(parts.every((p) => p.word === 'conforms')).toBe(true)
    // the samples' shunts are rounded to three digits
    for (const r of ranges) expect(Math.abs(r.before.error)).toBeLessThan(0.013)
  })

  test('takes the accuracy of the meter as a limit of error', () => {
    const [v] = readFound('part,measured,accuracy\ncoil,1.1 kohm,±(0.5 % + 2 ohm)\n', 's.csv', larkfield)
    expect(v!.u).toBeCloseTo(7.5 / Math.sqrt(3), 9)
  })

  test.each([
    ['part,measured\nshunt 11 mA,3 ohm\n', /row 2.*"shunt 11 mA" is no part of Larkfield/],
    ['part,measured\ncoil,1100\n', /"1100" has no unit/],
    ['part,measured\ncoil,2 V\n', /"2 V"/],
    ['part,measured\ncoil,-3 ohm\n', /is not above 0/],
    ['part,measured\ncoil,\n', /is empty in every row/],
    ['part,measured\ncoil,1.1 kohm\nCOIL,1.1 kohm\n', /stands there twice/],
    ['part,measured,accuracy\ncoil,1.1 kohm,good\n', /0\.5 % \+ 20 mohm/],
  ])('%j is refused', (text, say) => expect(() => readFound(text, 's.csv', larkfield)).toThrow(say))

  test('a digital tester has cells and leads to look at, and no ranges of a needle', () => {
    const t = sampleTester('tallow')!
    expect(testerParts(t).map((p) => p.kind)).not.toContain('shunt')
    expect(asFound(t, [found(t, 'leads', 0.01)], foundDefaults).ranges).toEqual([])
  })
})
