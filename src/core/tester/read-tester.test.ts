import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { explain } from '#core/fault'
import { testerExample } from './example.ts'
import { readTester, testerSchema } from './read-tester.ts'

const faults = (text: string): readonly string[] => {
  const read = readTester(text, { file: 'b.yaml' })
  return read.ok ? [] : read.faults.map(explain)
}
/** The example with one line changed. */
const changed = (from: string, to: string): string => {
  expect(testerExample).toContain(from)
  return testerExample.replace(from, to)
}

test('the example becomes a tester in SI units', () => {
  const read = readTester(testerExample)
  expect(read.ok && read.tester).toMatchObject({
    id: 'bench-tester',
    movement: {
      fullScaleA: 100e-6,
      coilOhm: 1100,
      copperPerK: 0.00393,
      atC: 20,
      classPercent: 2,
      zero: 'left',
      readable: 0.2,
    },
    ranges: [
      { id: '100 uA', measures: 'current', fullScale: 100e-6, circuit: { kind: 'movement' } },
      { id: '1 mA', circuit: { kind: 'shunt', shuntOhm: 122, tolerance: 0.01, contactOhm: 0 } },
      { id: '10 mA', circuit: { asFound: { ohm: 11.15, uOhm: 0.02 } } },
      { id: '1 V', measures: 'voltage', fullScale: 1, circuit: { kind: 'multiplier', seriesOhm: 8900 } },
    ],
    supplies: [{ taps: [1.5, 4.5], cellV: 1.5, ohmPerCell: 0.5, tolerance: 0.03, maxA: 0.5 }],
    gain: { kind: 'dial', collectorA: [0.5e-3, 10e-3], tolerance: 0.05 },
    limits: { maxCurrentA: 0.5, maxVoltageV: 15 },
    thermometer: { uC: 1 },
  })
})

describe('a slip is told with line, path, value and mend', () => {
  test.each([
    [
      'coil: 1.1 kohm',
      'coil: 1.1 kV',
      'b.yaml, line 10:9, movement.coil: "1.1 kV" is a voltage, not a resistance. Write it as 1.1 kohm.',
    ],
    [
      'fullScale: 100 uA\n',
      'fullScale: 100\n',
      'b.yaml, line 9:14, movement.fullScale: "100" has no unit. Write the unit with it, as in 100 uA.',
    ],
    [
      'class: 2 %',
      'class: 200 %',
      'b.yaml, line 11:10, movement.class: "200 %" is more than 20. Write a class such as 2 %.',
    ],
    ['readable: 1/5', 'readable: 1/0', 'movement.readable: "1/0" is not a number. Write it as 1/5.'],
    [
      '  class: 2 %                     # of full scale; printed on the dial\n',
      '',
      'movement: "class" is missing. Add a line such as class: 2 % (accuracy class: limit of error in percent of full scale (IEC 60051)).',
    ],
    ['tolerance: 5 %', 'tolerance: 5', 'gain.tolerance: "5" has no percent sign. Write 5 % if percent is meant.'],
    ['kind: needle ', 'kind: neddle ', 'kind: "neddle" is not a word allowed here. Did you mean needle?'],
    ['polarities:', 'polarity:', '"polarity" is not a key that is known here. Did you mean polarities?'],
    [
      'asFound: 11.15 ohm +- 0.02 ohm',
      'asFound: 11.15 ohm',
      'ranges[3].circuit.asFound: "11.15 ohm" does not say how well it was measured. Write its uncertainty with it: 11.15 ohm +- 0.02 ohm.',
    ],
    [
      'shunt: 122 ohm',
      'shunt: 12.2 ohm',
      'ranges[2].circuit.shunt: "12.2 ohm" makes 9.12 mA at full scale, not 1 mA. For 1 mA the shunt should be about 122 \u03a9.',
    ],
    ['series: 8.9 kohm', 'series: 89 kohm', 'For 1 V the series resistor should be about 8.9 k\u03a9.'],
    [
      'fullScale: 100 uA, circuit: movement',
      'fullScale: 200 uA, circuit: movement',
      'makes 100 \u00b5A at full scale, not 200 \u00b5A. Straight on the movement the range is 100 \u00b5A.',
    ],
    [
      'fullScale: 1 mA, circuit',
      'fullScale: 50 uA, circuit',
      'cannot be made by this circuit. A movement of 100 \u00b5A and 1.1 k\u03a9 cannot make it.',
    ],
    ['fullScale: 1 mA, circuit', 'fullScale: 1 V, circuit', 'does not fit a circuit that reads a current'],
    [
      'fullScale: 1 mA, circuit',
      'fullScale: 1 mW, circuit',
      'ranges[2].fullScale: "1 mW" is a power. Write a current or a voltage: 10 mA.',
    ],
    [
      'id: 10 mA, fullScale: 10 mA',
      'id: 1MA, fullScale: 10 mA',
      'ranges[3].id: "1MA" is the name of two of them. Give each its own name.',
    ],
    [
      'taps: [1.5 V, 4.5 V]',
      'taps: [1.5 V, 4 V]',
      'supplies[1].taps[2]: "4 V" is not a whole number of cells. Cells of 1.5 V make 4.5 V near it.',
    ],
    [
      'taps: [1.5 V, 4.5 V]',
      'taps: [1.5 V, 45 V]',
      'supplies[1].taps[2]: "45 V" is above the limit of the tester (15 V).',
    ],
    ['from: 10, to: 100', 'from: 100, to: 10', 'gain.spans[1].to: "10" is not above the low end.'],
    [
      'collector: [0.5 mA, 10 mA]',
      'collector: [10 mA, 0.5 mA]',
      'gain.collector[2]: "0.5 mA" is not above the smallest current.',
    ],
    [
      'ranges: [100 uA, 1 mA, 10 mA], supply: cells',
      'ranges: [100 uA, 2 mA], supply: cels',
      'tests[2].supply: "cels" is not the name of a supply. Did you mean cells?',
    ],
    [
      'reads: V_BE, ranges: [1 V]',
      'reads: V_BE, ranges: [1 mA]',
      'tests[5].ranges[1]: "1 mA" reads A, and V_BE is in V.',
    ],
    [
      'reads: V_BE, ranges: [1 V]',
      'reads: V_BE, ranges: []',
      'tests[5].ranges: "[]" is empty, and V_BE is read on a range.',
    ],
    ['scales:\n  - { id: "100", divisions: 50, end: 100 }', 'scales: []', 'needs at least one printed scale'],
    [
      'id: bench-tester',
      'id: Bench Tester',
      'id: "Bench Tester" is not written as it should be. Write it as bench-tester',
    ],
    [
      'circuit: movement',
      'circuit: muvement',
      'Write movement. Or write a group such as { kind: shunt, shunt: 11.1 ohm, tolerance: 1 % }.',
    ],
    [
      'kind: shunt, shunt: 122 ohm',
      'kind: shnt, shunt: 122 ohm',
      'ranges[2].circuit.kind: "shnt" is not a word allowed here. Did you mean shunt?',
    ],
    ['thermometer: 1 K', 'thermometer: 1 degC', ''],
  ])('%j written %j', (from, to, sentence) => {
    const found = faults(changed(from, to))
    if (sentence === '') expect(found).toEqual([])
    else expect(found.join('\n')).toContain(sentence)
  })

  test('several at once', () => {
    const text = testerExample
      .replace('shunt: 122 ohm', 'shunt: 1 ohm')
      .replace('supply: cells }', 'supply: x }')
      .replace('from: 50, to: 500', 'from: 50, to: 5')
    expect(faults(text)).toHaveLength(3)
  })

  test('digital testers have neither movement nor scales', () => {
    const found = faults(changed('kind: needle ', 'kind: digital '))
    expect(found.join('\n')).toContain(
      'movement: "fullScale: 100 uA coil: 1.1 kohm class: 2 % # of full sca..." has no place on a digital tester. Take it out.',
    )
    expect(found.filter((f) => f.includes('needs a movement, which a digital tester has not'))).toHaveLength(4)
  })
})

test('a network within five times its tolerance and class is let be', () => {
  expect(faults(changed('shunt: 122 ohm', 'shunt: 110 ohm'))).toEqual([])
  expect(faults(changed('shunt: 122 ohm', 'shunt: 100 ohm'))).toHaveLength(1)
})

test('the schema is plain JSON with the words of the file', () => {
  const schema = JSON.parse(JSON.stringify(testerSchema()))
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
  expect(schema.required).toEqual(
    expect.arrayContaining(['format', 'id', 'name', 'kind', 'ranges', 'gain', 'tests', 'limits']),
  )
  expect(schema.properties.movement.properties.fullScale).toMatchObject({ examples: ['100 uA'] })
})

test('nothing anyone may make of it throws', () => {
  const lines = testerExample.split('\n')
  const slip = fc.tuple(
    fc.nat(lines.length - 1),
    fc.constantFrom(
      '',
      '  x: 1',
      'kind: shunt',
      '- 7',
      '{',
      ']',
      'fullScale: -1 A',
      'id: ',
      'taps: [0 V]',
      'class: -1',
      'end: .inf',
      'divisions: .nan',
      'copper: 9',
    ),
  )
  fc.assert(
    fc.property(fc.array(slip, { maxLength: 4 }), (slips) => {
      const copy = [...lines]
      for (const [n, text] of slips) copy[n] = text
      const read = readTester(copy.join('\n'))
      expect(read.ok || read.faults.every((f) => explain(f).length > 10)).toBe(true)
    }),
    { numRuns: 500 },
  )
})
