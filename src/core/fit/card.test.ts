import { describe, expect, test } from 'vitest'
import { readModelCard } from '#core/circuit'
import { hasSimulator, simulated } from '#core/testing'
import { fitCard, fittedDevice } from './card.ts'
import { fitKinds } from './curve.ts'
import type { CurveFit } from './describe-fit.ts'
import { curveExampleCsv } from './example.ts'
import { fitCurve } from './fit-curve.ts'
import { curvesOf } from './read-curve.ts'

const fits = fitKinds.map(
  (kind) => [kind, fitCurve(curvesOf(curveExampleCsv[kind], kind)[0]!, { temperatureC: 23 })] as const,
)

test.each(fits)('the card of a %s reads back as the same device', (_, fit) => {
  const lines = fitCard(fit, 'x1', '1968-05-01')
    .split('\n')
    .filter((l) => l !== '' && !l.startsWith('*'))
  const card = lines.map((l) => l.replace(/^\+ /, ' ')).join('')
  expect(readModelCard(card)).toEqual({ name: 'x1', device: fittedDevice(fit) })
})

test('its comments give temperature, range, date and uncertainties', () => {
  const text = fitCard(fits[0]![1], 'x1', '1968-05-01')
  expect(text).toMatch(/fitted 1968-05-01 to 25 readings at 23 degC/)
  expect(text).toMatch(/\* n 1\.72\d standard uncertainty/)
})

/** What ngspice finds for each reading of a curve, with the card as it was written. */
function measured(fit: CurveFit, kind: keyof typeof elements): readonly number[] {
  const points = curvesOf(curveExampleCsv[kind], kind)[0]!.points
  const lines = ['* card', ...fitCard(fit, 'x1', '1968-05-01').split('\n'), '.temp 23', '.options gmin=1e-15']
  const vectors = fit.residuals.map((r, i) => `i(v${r.symbol === 'I_B' ? 'b' : 'o'}${i})`)
  for (const [i, r] of fit.residuals.entries())
    lines.push(...elements[kind](points.find((q) => q.row === r.row)!.values, i))
  const found = simulated(lines.join('\n'), vectors)
  return vectors.map((v) => -found[v]!)
}

type Values = Readonly<Record<string, number | undefined>>
const elements = {
  diode: (p: Values, i: number) => [`Vo${i} a${i} 0 ${p.V_F}`, `D${i} a${i} 0 x1`],
  bjt: (p: Values, i: number) => [
    `Vo${i} c${i} 0 ${p.V_CE}`,
    p.V_BE === undefined ? `Ib${i} 0 b${i} ${p.I_B}` : `Vb${i} b${i} 0 ${p.V_BE}`,
    `Q${i} c${i} b${i} 0 x1`,
  ],
  jfet: (p: Values, i: number) => [`Vg${i} g${i} 0 ${p.V_GS}`, `Vo${i} d${i} 0 ${p.V_DS}`, `J${i} d${i} g${i} 0 x1`],
  mosfet: (p: Values, i: number) => [
    `Vg${i} g${i} 0 ${p.V_GS}`,
    `Vo${i} d${i} 0 ${p.V_DS}`,
    `M${i} d${i} g${i} 0 0 x1 L=1 W=1`,
  ],
} as const

const leakage = fitCurve(
  curvesOf('T [degC],I_CBO [uA]\n15,1.23\n20,2.07\n25,3.25\n30,5.2\n35,8.79\n40,13.8\n', 'diode')[0]!,
  { temperatureC: 25 },
)

test('a card of leakage says that it knows nothing forward', () =>
  expect(fitCard(leakage, 'x1', '1968-05-01')).toContain('its forward current was not read'))

describe.runIf(hasSimulator())('ngspice takes the card', () => {
  test.each(leakage.residuals)('of leakage against temperature: row $row', ({ row, fitted }) => {
    const lines = ['* card', ...fitCard(leakage, 'x1', '1968-05-01').split('\n'), `.temp ${15 + 5 * (row - 2)}`]
    const found = simulated([...lines, '.options gmin=1e-15', 'V1 a 0 -9', 'D1 a 0 x1'].join('\n'), ['i(v1)'])
    // ngspice 39 gives reverse current as I_S (1 + (3 n V_T / e V)^3)
    expect(found['i(v1)']! / fitted - 1).toBeCloseTo(0, 4)
  })

  test.each(fits)('of a %s and measures what was read, within the scatter of the fit', (kind, fit) => {
    const found = measured(fit, kind)
    expect(found).toHaveLength(fit.residuals.length)
    for (const [i, r] of fit.residuals.entries()) {
      expect(Math.abs(found[i]! / r.fitted - 1), `reading ${i}, ${r.symbol}`).toBeLessThan(1e-4)
      expect(Math.abs(found[i]! / r.measured - 1)).toBeLessThan(4 * fit.scatter!)
    }
  })
})
