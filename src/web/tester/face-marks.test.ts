import { expect, test } from 'vitest'
import { faceMarks } from './face-marks.ts'

const labels = (divisions: number, end: number): readonly string[] =>
  faceMarks(divisions, end).flatMap((m) => (m.label === undefined ? [] : [m.label]))

test.each([
  [50, 100, ['0', '20', '40', '60', '80', '100']],
  [30, 30, ['0', '5', '10', '15', '20', '25', '30']],
  [30, 15, ['0', '2.5', '5', '7.5', '10', '12.5', '15']],
  [50, 50, ['0', '10', '20', '30', '40', '50']],
  [60, 3, ['0', '0.5', '1', '1.5', '2', '2.5', '3']],
])('%i divisions to %d', (divisions, end, wanted) => expect(labels(divisions, end)).toEqual(wanted))

test('a mark for each division, from nothing to full scale', () => {
  const marks = faceMarks(50, 100)
  expect(marks).toHaveLength(51)
  expect([marks[0]!.at, marks.at(-1)!.at]).toEqual([0, 1])
})
