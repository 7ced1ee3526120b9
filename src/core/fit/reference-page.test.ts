import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { fitKinds } from './curve.ts'
import { curveExampleCsv } from './example.ts'
import { fitCurve } from './fit-curve.ts'
import { fitHandRun } from './fit-hand-run.ts'
import { handRunOf } from './hand-run.ts'
import { curvesOf, symbolsOf } from './read-curve.ts'

const page = readFileSync(join(import.meta.dirname, '../../../docs/reference/curves.md'), 'utf8')

test('the example on the page is the one the command prints', () => {
  expect(/```csv\n(.*?)```/s.exec(page)?.[1]).toBe(curveExampleCsv.diode)
})

test('the few readings on the page give I_S and n, and a limit of R_S', () => {
  const csv = [...page.matchAll(/```csv\n(.*?)```/gs)][1]![1]!
  const [curve] = curvesOf(csv, 'diode')
  const { parameters } = fitHandRun(handRunOf(curve!, { temperatureC: 25 }))
  expect(parameters.map((p) => p.standing)).toEqual(['fitted', 'fitted', 'held'])
  expect(parameters[2]!.limit).toEqual({ atMost: expect.any(Number) })
})

test.each(fitKinds)('the page names the columns and parameters of a %s, and its example fits', (kind) => {
  const fit = fitCurve(curvesOf(curveExampleCsv[kind], kind)[0]!, { temperatureC: 23 })
  for (const name of [...symbolsOf[kind], ...fit.parameters.map((p) => p.symbol)]) expect(page).toContain(`\`${name}\``)
  expect(fit.ended).toBe('settled')
})
