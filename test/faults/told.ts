import type { Importing } from '#book'
import type { Reading } from '#core/tester'
import { handTester, leakageReading, manyReadings } from '../book/invented.ts'

/** The reading that a child takes as number `n` of its life: parent and child make the same one. */
export const readingOf = (life: number, n: number): Reading =>
  leakageReading(`K${n % 7}`, (n % 500) / 10, { point: n, note: `life ${life}, reading ${n}` })

/** The import of a child. */
export const importOf = (rows: number): Importing => ({
  tester: handTester.id,
  readings: manyReadings(rows, 50),
  from: 'lot.csv',
  hash: `lot of ${rows}`,
})
