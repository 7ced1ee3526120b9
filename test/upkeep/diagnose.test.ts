import { describe, expect, test } from 'vitest'
import { sampleTester } from '#catalog'
import {
  diagnose,
  diagnoseExample,
  type FoundValue,
  foundOdds,
  needleAt,
  playbook,
  readSaw,
  testerChecks,
  testerFaults,
  testerParts,
} from '#core/upkeep'
import { tally } from './seeded-faults.ts'
import reference from './state.ref.json' with { type: 'json' }

const larkfield = sampleTester('larkfield')!
const book = playbook(larkfield)
const suspects = (...saw: readonly string[]) => diagnose(book, readSaw(saw, larkfield)).suspects
const first = (...saw: readonly string[]) => suspects(...saw).filter((s) => s.place === 1)
const names = (list: ReturnType<typeof suspects>) => list.map((s) => s.fault.id).sort()

describe('the needle of a tester with a fault stands where the network simulator has it', () => {
  test.each(reference.cases.map((c) => [c.fault, c] as const))('%s', (_, c) => {
    const fault = testerFaults(larkfield).find((f) => f.id === c.fault)!
    expect(needleAt(fault.at(c.size), c.range, c)).toBeCloseTo(c.fraction, 7)
  })
})

describe('seeded faults', () => {
  // GERMANE_CASES=1700 gives the tally of docs/how-to/find-trouble.md, of more than 500 that can be told apart on each
  test.each(['larkfield', 'marlpit'])('of %s are among the first three where they can be told apart', (id) => {
    const t = tally(sampleTester(id)!, Number(process.env.GERMANE_CASES ?? 160), 2026)
    expect(t.distinguishable).toBeGreaterThanOrEqual(30)
    expect(t.inThree / t.distinguishable, t.missed.join('; ')).toBeGreaterThanOrEqual(0.9)
  })
})

describe('symptoms any repair man knows', () => {
  test('a range that pegs has lost its shunt, and which joint of it cannot be told', () => {
    const tied = first('10 mA: pegged', 'others: right', 'rest: right')
    expect(names(tied)).toEqual(['contact 10 mA open', 'shunt 10 mA open'])
    expect(new Set(tied.map((s) => s.chance)).size).toBe(1)
  })

  test('all ranges low is a weak magnet, or with voltages right the cells', () => {
    expect(names(first('all: -12 %', 'rest: right'))).toEqual(['magnet weak'])
    const cells = suspects('100 uA: -20 %', '1 mA: -20 %', '30 mA: -20 %', '1 A: right', '1 V: right', 'collector: low')
    expect(cells[0]!.fault.id).toBe('cell collector weak')
    expect(cells[0]!.size).toBeCloseTo(0.8, 1)
  })

  test('no deflection at all lies in movement or leads', () =>
    expect(names(first('all: none', 'rest: right'))).toEqual([
      'coil open',
      'lead broken',
      'movement shorted',
      'needle stuck',
    ]))

  test('no deflection on one range is its feed', () =>
    expect(names(first('1 V: none', '10 V: right', 'current: right'))).toEqual([
      'multiplier 1 V open',
      'switch 1 V open',
    ]))

  test('a null off centre at zero base current is a leak, and the needle at rest tells a bent zero', () => {
    expect(first('null: +3 div', 'rest: right', 'open: right')[0]!.fault.id).toBe('leak into base')
    expect(first('null: +3 div', 'rest: +3 div', 'open: +3 div')[0]!.fault.id).toBe('needle bent up')
  })

  test('what jumps is a dirty contact', () =>
    expect(first('1 A: unsteady', 'others: right')[0]!.fault.id).toMatch(/^(contact|switch) 1 A dirty$/))

  test('low on loaded ranges alone is resistance in the cells', () =>
    expect(first('300 mA: -30 %', '100 uA: right', 'collector: right')[0]!.fault.id).toBe('inside collector high'))
})

describe('parts that were measured', () => {
  const measured = (part: string, value: number, u = value * 0.003): FoundValue => ({
    part: testerParts(larkfield).find((p) => p.id === part)!,
    value,
    u,
  })
  const pegged = readSaw(['10 mA: pegged', 'others: right', 'rest: right'], larkfield)
  const firstWith = (...found: readonly FoundValue[]) =>
    names(diagnose(book, pegged, found).suspects.filter((s) => s.place === 1))

  test('and found good are no longer suspected, and the tie falls to the other', () => {
    expect(firstWith(measured('shunt 10 mA', 11.12))).toEqual(['contact 10 mA open'])
    expect(firstWith(measured('contact 10 mA', 0.001))).toEqual(['shunt 10 mA open'])
    expect(firstWith(measured('shunt 1 mA', 122.2))).toEqual(['contact 10 mA open', 'shunt 10 mA open'])
  })

  test('and found off are suspected with the size they have', () => {
    const high = readSaw(['10 mA: high', '1 mA: right', '100 mA: right', 'rest: right'], larkfield)
    const [bare] = diagnose(book, high).suspects
    const [first] = diagnose(book, high, [measured('shunt 10 mA', 12.1)]).suspects
    expect(first!.chance).toBeGreaterThan(bare!.chance)
    expect(first!.fault.id).toBe('shunt 10 mA drifted')
    // shunt of 11.11 ohm by its description: 12.1 ohm is 1.089 of it
    expect(first!.size).toBeCloseTo(1.09, 1)
  })

  // by hand: a fault that says just what was measured has odds of 1 over those of a sound part, 1e-4 at least
  test('weigh a fault by what its part came to', () => {
    const drifted = testerFaults(larkfield).find((f) => f.id === 'shunt 10 mA drifted')!
    const nominal = testerParts(larkfield).find((p) => p.id === 'shunt 10 mA')!.nominal!
    expect(foundOdds(drifted, 1.2, [measured('shunt 10 mA', 1.2 * nominal)])).toBeGreaterThan(9e3)
    expect(foundOdds(drifted, 1.2, [measured('shunt 10 mA', nominal)])).toBeCloseTo(1e-4, 5)
    expect(foundOdds(drifted, 1.2, [measured('shunt 1 mA', nominal)])).toBe(1)
    expect(foundOdds(drifted, 1.2, [])).toBe(1)
  })
})

describe('a diagnosis', () => {
  test('says what to look at next where that tells suspects apart', () => {
    const { next } = diagnose(book, readSaw(['null: +3 div'], larkfield))
    expect(['open', 'rest']).toContain(next!.check.id)
    expect(diagnose(book, readSaw(['10 mA: pegged', 'others: right'], larkfield)).suspects[0]!.place).toBe(1)
  })

  test('says that a sound tester shows what is right', () => {
    expect(diagnose(book, readSaw(['all: right', 'rest: right'], larkfield)).sound).toBeGreaterThan(0.3)
    expect(diagnose(book, readSaw(['10 mA: pegged', 'others: right'], larkfield)).sound).toBeLessThan(1e-3)
  })

  test('says that two faults are not one', () => {
    expect(diagnose(book, readSaw(['10 mA: pegged', '10 V: none', 'others: right'], larkfield)).isPoor).toBe(true)
    expect(diagnose(book, readSaw(['10 mA: pegged', 'others: right'], larkfield)).isPoor).toBe(false)
  })

  test('has chances that sum to 1 and fall', () => {
    const all = suspects('3 mA: high')
    expect(all.reduce((a, s) => a + s.chance, 0)).toBeCloseTo(1, 12)
    for (const [i, s] of all.entries()) if (i > 0) expect(s.chance).toBeLessThanOrEqual(all[i - 1]!.chance)
  })

  test('names what no check shows', () =>
    expect(book.hidden.map((f) => f.id)).toEqual([
      'series 1 kohm high-voltage open',
      'series 1 kohm high-voltage shorted',
      'series 1 kohm high-voltage drifted',
    ]))
})

describe('what was seen', () => {
  test('is read as people write it; single places go before groups', () => {
    const saw = readSaw(['others: right', '10MA , 1 mA: Low', 'rest: -0.5 div', '10 V: +12 %'], larkfield)
    const seen = new Map(saw.map((s) => [s.check.id, s.seen]))
    expect(seen.get('10 mA')).toBe('low')
    expect(seen.get('1 mA')).toBe('low')
    expect(seen.get('rest')).toBe(-0.5)
    expect(seen.get('10 V')).toBeCloseTo(1.12, 12)
    expect(seen.get('3 A')).toBe('right')
    expect(seen.has('gain')).toBe(false)
  })

  test('of the example reads', () => {
    const lines = diagnoseExample.split('\n').filter((l) => l !== '' && !l.startsWith('#'))
    expect(readSaw(lines, larkfield)).toHaveLength(13)
  })

  test.each([
    ['10 mA none', /"10 mA none" has no colon/],
    ['11 mA: none', /no place to look at on Larkfield bench tester called "11 mA"/],
    ['10 mA: odd', /"10 mA: odd" ends in "odd".*right, none, low, high, pegged, unsteady, or how far it is off: -8 %/],
    ['10 mA: 3 div', /ends in "3 div"/],
    ['rest: 5 V', /or divisions: \+2 div/],
  ])('%j is refused', (text, say) => expect(() => readSaw([text], larkfield)).toThrow(say))

  test('cannot be of a tester without a needle', () => expect(testerChecks(sampleTester('tallow')!)).toEqual([]))
})

test('a sound tester shows at every check what is right', () => {
  for (const id of ['larkfield', 'marlpit'])
    for (const { checks, sound } of [playbook(sampleTester(id)!)])
      checks.forEach((c, i) => {
        expect(sound.values[i], c.id).toBeCloseTo(c.seen === 'part' ? 1 : 0, 12)
      })
})
