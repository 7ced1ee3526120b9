import { expect, test } from 'vitest'
import { type Calibration, readTester, testerExample } from '#core/tester'
import { reduceReadings } from './index.ts'

const read = readTester(testerExample)
if (!read.ok) throw new Error('the example does not read')

const calibration = (trust: 'trusted' | 'not trusted'): Calibration => ({
  date: '2024-01-01',
  due: '2025-01-01',
  ranges: [
    {
      range: '1 mA',
      trust,
      why: 'The needle sticks.',
      from: 0,
      to: 1e-3,
      law: { kind: 'line', at: 5e-4, offset: 1e-5, slope: 0, uOffset: 1e-6, uSlope: 0 },
      uReference: 0,
      uRepeat: 0,
    },
  ],
})

const resultOf = (trust: 'trusted' | 'not trusted', at: string) => {
  const shown = { kind: 'deflection', divisions: 20 } as const
  const reading = { part: 'P', reads: 'I_CEO', shown, seen: '20 div', range: '1 mA', point: 1, at } as const
  return reduceReadings({ ...read.tester, calibrations: [calibration(trust)] }, [reading])[0]!.parameters[0]!
}

test('a result from a range that is not trusted says so', () => {
  const p = resultOf('not trusted', '2024-06-01')
  expect(p.doubts).toEqual([expect.objectContaining({ code: 'range-not-trusted', weight: 'notice' })])
  expect(p.doubts[0]!.say).toContain('The needle sticks.')
})

test('so does one whose calibration was due again', () =>
  expect(resultOf('trusted', '2025-02-01').doubts.map((d) => d.code)).toEqual(['range-not-trusted']))

/** By hand: 20 of 50 divisions show 0.4 mA; 10 uA are added. */
test('one from a trusted range is corrected, and nothing is said against it', () => {
  const p = resultOf('trusted', '2024-06-01')
  expect(p.quantity.value).toBeCloseTo(0.41e-3, 9)
  expect(p.doubts).toEqual([])
})
