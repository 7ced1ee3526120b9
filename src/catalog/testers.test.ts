import { expect, test } from 'vitest'
import { explain } from '#core/fault'
import { needle, readTester } from '#core/tester'
import { sampleTester, sampleTesters } from './testers.ts'

test.each(sampleTesters.map((s) => [s.id, s] as const))(
  '%s reads without a fault, under its own name',
  (id, sample) => {
    const read = readTester(sample.text, { file: `${id}.yaml` })
    expect(read.ok ? [] : read.faults.map(explain)).toEqual([])
    expect(sampleTester(id)).toMatchObject({ id, name: sample.name, kind: sample.kind })
  },
)

test.each(sampleTesters.map((s) => [s.id] as const))(
  '%s: each range reaches full deflection near its printed value',
  (id) => {
    const tester = sampleTester(id)!
    for (const range of tester.ranges)
      expect(Math.abs(needle(tester, range, range.fullScale).fraction - 1), range.id).toBeLessThan(0.01)
  },
)

test('a sample that is not there is undefined', () => {
  expect(sampleTester('nowhere')).toBeUndefined()
})
