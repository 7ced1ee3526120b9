import { describe, expect, test } from 'vitest'
import { readTester, type Tester, testerExample } from '#core/tester'
import {
  asFound,
  diagnose,
  foundDefaults,
  needleAt,
  playbook,
  protection,
  protectionDefaults,
  readFound,
  readSaw,
  soundState,
  testerParts,
} from '#core/upkeep'

/** The example tester with what stands inside described: a gain dial with its resistors, a fuse, diodes. */
function described(dial: 'base' | 'collector' = 'base'): Tester {
  const text = testerExample
    .replace(/^gain:[\s\S]*?(?=^tests:)/m, () =>
      [
        'gain:',
        '  kind: dial',
        '  spans: [{ id: x1, from: 10, to: 100 }]',
        '  tolerance: 5 %',
        '  readable: 1 %',
        '  nullWithin: 1 %',
        '  collector: [0.5 mA, 10 mA]',
        `  bridge: { dial: ${dial}, fixed: 1 kohm, pot: 100 kohm, tolerance: 5 % }`,
        'fuse: { resistance: 0.3 ohm, rated: 500 mA }',
        '',
      ].join('\n'),
    )
    .replace(/^movement:\n/m, 'movement:\n  diodes: schottky\n')
  const read = readTester(text)
  if (!read.ok) throw new Error(JSON.stringify(read.faults))
  return read.tester
}

const tester = described()
const part = (id: string) => testerParts(tester).find((p) => p.id === id)!
const found = (t: Tester, ...rows: readonly string[]) =>
  asFound(t, readFound(['part,measured,accuracy', ...rows].join('\n'), 'x.csv', t), foundDefaults)

test('what a description names is a part of the empty sheet', () => {
  expect(part('dial resistor').allowed).toEqual({ min: 950, max: 1050 })
  expect(part('dial pot').how).toMatch(/end to end/)
  expect(part('fuse').allowed.max).toBeCloseTo(0.45, 12)
})

describe('the resistors of a gain dial', () => {
  // by hand: h_FE = R_B / R_C at null; a mark drawn for 1 kohm in the collector shows 1.1 times what is there at 1.1 kohm
  test.each([
    ['base', 'dial resistor,1.1 kohm,0.5 %', 0.1],
    ['base', 'dial pot,80 kohm,0.5 %', 0.25],
    ['collector', 'dial resistor,1.1 kohm,0.5 %', 1 / 1.1 - 1],
    ['collector', 'dial pot,80 kohm,0.5 %', -0.2],
  ] as const)('with the dial in the %s lead, %s', (dial, row, error) => {
    const [p] = found(described(dial), row).parts
    expect(p!.word).toBe('does not conform')
    expect(p!.effects).toHaveLength(1)
    expect(p!.effects[0]!.range).toBe('gain')
    expect(p!.effects[0]!.error).toBeCloseTo(error, 9)
    expect(p!.mend!.say).toMatch(/the scale was drawn for/)
  })

  test('are suspected where the gain is off, tied with a knob that has turned until one is measured', () => {
    const book = playbook(tester)
    const saw = readSaw(['gain: +20 %', 'null: right', 'others: right'], tester)
    const first = (...rows: readonly string[]) => {
      const measured = rows.length === 0 ? [] : found(tester, ...rows).parts
      const { suspects } = diagnose(book, saw, measured)
      return suspects.slice(0, 3).map((s) => s.fault.id)
    }
    expect(first().sort()).toEqual(['dial knob turned', 'dial pot drifted', 'dial resistor drifted'])
    expect(first('dial resistor,1.2 kohm,0.5 %')[0]).toBe('dial resistor drifted')
    expect(first('dial resistor,1 kohm,0.5 %')[2]).not.toBe('dial resistor drifted')
  })
})

describe('a fuse', () => {
  // by hand: 1 V from 10 ohm on a range; the fuse stands in series with all of it
  test('stands in series with the part', () => {
    const bare = { ...tester, fuse: { ohm: 1e-12, ratedA: 0.5 } }
    const big = { ...tester, fuse: { ohm: 90, ratedA: 0.5 } }
    const at = (t: Tester): number => needleAt(soundState(t), '10 mA', { emfV: 0.5, ohm: 90 })
    // the shunt was found to be 11.15 ohm, beside the coil of 1.1 kohm
    const inside = 1 / (1 / 1100 + 1 / 11.15)
    expect(at(bare) / at(big)).toBeCloseTo((180 + inside) / (90 + inside), 9)
  })

  test('that is blown is one of those that show nothing anywhere', () => {
    const { suspects } = diagnose(playbook(tester), readSaw(['all: none', 'rest: right'], tester))
    const first = suspects.filter((s) => s.place === 1).map((s) => s.fault.id)
    expect(first).toContain('fuse blown')
    expect(first).toContain('lead broken')
  })
})

describe('diodes across the movement', () => {
  test('cost what the choice of diodes says of them, as found and after mending', () => {
    const { diodes: _, ...movement } = tester.movement!
    const none = found({ ...tester, movement }, 'coil,1.1 kohm,0.3 %')
    const with_ = found(tester, 'coil,1.1 kohm,0.3 %')
    for (const [i, { range, before, after }] of with_.ranges.entries()) {
      const chosen = protection({
        movement,
        range,
        overload: { kind: 'full-scale', times: 1 },
        temperaturesC: [movement.atC],
        mostError: 1,
        bears: protectionDefaults.bears,
      })
      const cost = chosen.results.find((r) => r.id === 'schottky')!.worstError
      expect(cost).toBeLessThan(0)
      expect(before.error - none.ranges[i]!.before.error).toBeCloseTo(cost, 9)
      expect(after.error - none.ranges[i]!.after.error).toBeCloseTo(cost, 9)
    }
  })

  test('that are open show at no check, and are named as such', () =>
    expect(playbook(tester).hidden.map((f) => f.id)).toContain('protection diodes open'))
})
