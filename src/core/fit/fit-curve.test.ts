import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  bipolarAt,
  bipolarPoint,
  boltzmann,
  diodeAt,
  diodeCurrent,
  elementaryCharge,
  jfetAt,
  jfetPoint,
  kelvin,
} from '#core/physics'
import { expectRelative } from '#core/testing'
import type { Curve, CurvePoint, FitKind } from './curve.ts'
import type { CurveFit } from './describe-fit.ts'
import { curveExampleCsv } from './example.ts'
import { fitCurve } from './fit-curve.ts'
import reference from './fits.ref.json'
import { curvesOf } from './read-curve.ts'

type Set = (typeof reference.sets)[number]
type Space = 'linear' | 'log'

/** Which kind of curve a reference set is, and what its columns and parameters are called here. */
const asCurve: Readonly<
  Record<
    string,
    {
      readonly kind: FitKind
      readonly columns: readonly string[]
      readonly fix?: Record<string, number>
      readonly names: Readonly<Record<string, string>>
    }
  >
> = {
  's-e1-diode-is-n': { kind: 'diode', columns: ['V_F', 'I_F', 'sigma'], names: { ln_IS: 'I_S', N: 'n' } },
  's-e2-diode-is-n-rs': {
    kind: 'diode',
    columns: ['V_F', 'I_F', 'sigma'],
    names: { ln_IS: 'I_S', N: 'n', ln_RS: 'R_S' },
  },
  's-e3-bjt-ic': {
    kind: 'bjt',
    columns: ['V_BE', 'I_C', 'sigma'],
    fix: { I_KF: 0 },
    names: { ln_IS: 'I_S', NF: 'N_F' },
  },
  's-e4-bjt-ib': {
    kind: 'bjt',
    columns: ['V_BE', 'I_B', 'u(I_B)'],
    fix: { N_F: 1, R_E: 0, R_B: 0 },
    names: { ln_ISF: 'I_S', ln_ISE: 'I_SE', NE: 'N_E' },
  },
  's-e5-early': { kind: 'bjt', columns: ['V_CE', 'I_C', 'sigma'], names: { IC0: 'I_C0', VAF: 'V_AF' } },
  's-e6-ge-reverse': {
    kind: 'diode',
    columns: ['V_R', 'I_R', 'u(I_R)'],
    fix: { n: 1.1 },
    names: { ln_IS: 'I_S', ln_RP: 'R_P' },
  },
  's-e7-icbo-temperature': {
    kind: 'diode',
    columns: ['T [degC]', 'I_CBO [A]', 'u(I_R)'],
    names: { ln_I25: 'I_S', EG: 'E_G' },
  },
  's-e8-jfet': { kind: 'jfet', columns: ['V_GS', 'I_D', 'sigma'], names: { BETA: 'beta', VTO: 'V_GS(off)' } },
}

function fitSet(set: Set, space: Space): CurveFit {
  const as = asCurve[set.id]!
  const csv = [as.columns, ...set.data].map((r) => r.join(',')).join('\n')
  const [curve] = curvesOf(csv, as.kind, { file: set.id })
  return fitCurve(curve!, {
    temperatureC: set.temperatureC ?? 25,
    space,
    ...(as.fix === undefined ? {} : { fix: as.fix }),
  })
}

const cases = reference.sets.flatMap((s) => (['linear', 'log'] as const).map((space) => [s.id, space, s] as const))

test.each(cases)('%s in %s space gives the reference parameters, uncertainties and correlation', (_, space, set) => {
  const fit = fitSet(set, space)
  const wanted = set.fits[space]
  const names = asCurve[set.id]!.names
  for (const [name, value] of Object.entries(wanted.parameters)) {
    const found = fit.parameters.find((p) => p.symbol === names[name])!
    const isLog = name.startsWith('ln_')
    expectRelative(found.value, isLog ? Math.exp(value!) : value!, 1e-5, name)
    const u = (wanted.standard_uncertainty as Record<string, number>)[name]!
    expectRelative(found.u! / (isLog ? found.value : 1), u, 2e-5, `u(${name})`)
  }
  expectRelative(fit.chiSquare, wanted.chi2, 1e-5, 'chi-square')
  expect(fit.dof).toBe(wanted.ndof)
  expect(fit.correlation.symbols).toHaveLength(Object.keys(wanted.parameters).length)
  // by magnitude: V_GS(off) and the like have the other sign where the reference has a magnitude
  const at = Object.keys(wanted.parameters).map((name) => fit.correlation.symbols.indexOf(names[name]!))
  for (const [j, row] of wanted.correlation.entries())
    for (const [k, r] of row.entries())
      expect(Math.abs(Math.abs(fit.correlation.matrix[at[j]!]![at[k]!]!) - Math.abs(r)), `r ${j} ${k}`).toBeLessThan(
        2e-5,
      )
})

const curve = (kind: FitKind, points: readonly CurvePoint['values'][]): Curve => ({
  name: 'made',
  kind,
  polarity: 'n',
  points: points.map((values, i) => ({ row: i + 2, values, u: {} })),
  notes: [],
})

const steps = (from: number, to: number, count: number): readonly number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1))

/** Each fitted parameter is the truth; one that was held is absent, and then its truth made no difference. */
function expectTruth(fit: CurveFit, truth: Readonly<Record<string, number>>, tolerance: number): void {
  for (const p of fit.parameters) {
    if (p.standing === 'held') expect(p.why, p.symbol).toBeTruthy()
    else if (truth[p.symbol] !== undefined) expectRelative(p.value, truth[p.symbol]!, tolerance, p.symbol)
  }
}

const log = (low: number, high: number) =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp)
const runs = { numRuns: 40, seed: 4 }

describe('curves without noise of random parts give the truth or say that they cannot', () => {
  test('diodes', () =>
    fc.assert(
      fc.property(log(1e-13, 1e-6), fc.double({ min: 1, max: 2, noNaN: true }), log(0.1, 50), (is, n, rs) => {
        const model = diodeAt({ is, n, rs, tnom: 25 }, kelvin(25), {
          voltsPerKelvin: boltzmann.value / elementaryCharge.value,
          gminS: 0,
        })
        const points = steps(0.1, 1, 40).map((v) => ({ V_F: v, I_F: diodeCurrent(model, v)! }))
        const fit = fitCurve(curve('diode', points))
        expectTruth(fit, { I_S: is, n, R_S: rs }, 1e-4)
        expect(fit.parameters.filter((p) => p.symbol !== 'R_S').every((p) => p.standing === 'fitted')).toBe(true)
      }),
      runs,
    ))

  test('junction field-effect transistors', () =>
    fc.assert(
      fc.property(
        fc.double({ min: -4, max: -0.8, noNaN: true }),
        log(1e-4, 1e-2),
        log(1e-3, 0.05),
        (vto, beta, lambda) => {
          const model = jfetAt({ vto, beta, lambda, tnom: 25 }, kelvin(25))
          const points = [6, 9].flatMap((vds) =>
            steps(vto * 0.9, 0, 15).map((vgs) => ({ V_GS: vgs, V_DS: vds, I_D: jfetPoint(model, vgs, vds)!.id })),
          )
          expectTruth(fitCurve(curve('jfet', points)), { 'V_GS(off)': vto, beta, lambda }, 1e-3)
        },
      ),
      runs,
    ))

  test('bipolar transistors', () =>
    fc.assert(
      fc.property(
        log(1e-15, 1e-12),
        fc.double({ min: 30, max: 400, noNaN: true }),
        fc.double({ min: 30, max: 150, noNaN: true }),
        log(0.02, 0.2),
        (is, bf, vaf, ikf) => {
          const model = bipolarAt({ is, bf, vaf, ikf, ise: is * 4, ne: 1.7, tnom: 25 }, kelvin(25))
          const sweep = [2, 8].flatMap((vce) =>
            steps(0.3, 0.72, 22).map((vbe) => {
              const p = bipolarPoint(model, { vbe, vce })!
              return { V_BE: vbe, V_CE: vce, I_B: p.ib, I_C: p.ic }
            }),
          )
          expectTruth(fitCurve(curve('bjt', sweep)), { I_S: is, B_F: bf, V_AF: vaf, I_KF: ikf, N_F: 1 }, 1e-3)
        },
      ),
      { ...runs, numRuns: 8 },
    ))
})

test('three points of a hand run give I_S and n, and say that the series resistance cannot be told', () => {
  const [read] = curvesOf('V_F [mV],I_F [mA]\n612,"1,00(1)"\n655,"3,00(3)"\n702,"10,0(1)"\n', 'diode')
  expect(read!.points[2]).toMatchObject({ values: { I_F: 0.01 }, u: { I_F: 1e-4 } })
  const fit = fitCurve(read!)
  const held = fit.parameters.find((p) => p.symbol === 'R_S')!
  expect(held).toMatchObject({ standing: 'held', value: 0 })
  expect(held.why).toContain('fewer than four')
  expect(fit.parameters[1]!.u).toBeGreaterThan(0)
})

test('a reading far off does not spoil a robust fit', () => {
  const text = curveExampleCsv.diode.replace(/^0\.450,.*$/m, '0.450,0.01')
  const [read] = curvesOf(text, 'diode')
  const fit = fitCurve(read!, { temperatureC: 23, robust: 'tukey', space: 'log' })
  const clean = fitCurve(curvesOf(curveExampleCsv.diode, 'diode')[0]!, { temperatureC: 23, space: 'log' })
  expectRelative(fit.parameters[1]!.value, clean.parameters[1]!.value, 2e-3)
  // what was let go does not count as scatter, nor does it hide a resistance that the others show
  expectRelative(fit.scatter!, clean.scatter!, 0.2)
  expect(fit.parameters.map((p) => p.standing)).toEqual(clean.parameters.map((p) => p.standing))
})

test('breakdown is found where the reverse sweep reaches it', () => {
  const model = diodeAt({ is: 1e-9, n: 1.2, rs: 2, bv: 6.2, ibv: 5e-3, nbv: 1.4, tnom: 25 }, kelvin(25))
  const points = [...steps(0.2, 0.8, 12), ...steps(-5.5, -6.2, 15)].map((v) => ({
    V_F: v,
    I_F: diodeCurrent(model, v)!,
  }))
  const fit = fitCurve(curve('diode', points))
  // the voltage of the junction at the greatest current that was read, behind 2 ohm
  const most = -points.at(-1)!.I_F
  expectRelative(fit.parameters.find((p) => p.symbol === 'V_BR')!.value, 6.2 - 2 * most, 1e-5)
})

test('a temperature that no part stands is refused', () => {
  expect(() => curvesOf('T [°C],I_R [uA]\n25,3\n-300,4\n', 'diode', { file: 'a.csv' })).toThrow(
    /a\.csv, row 3, column "T".*no temperature/,
  )
})

test('every faulty cell is named together, with row, column, value and mend', () => {
  expect(() => curvesOf('V_F [V],I_F [A]\n0.4,x1\n0.5 A,1e-6\n', 'diode', { file: 'a.csv' })).toThrow(
    /a\.csv, row 2, column "I_F".*"x1"[\s\S]*row 3, column "V_F".*"0\.5 A"/,
  )
})

test('columns may be mapped, units may stand in the cell, and a file may hold several parts', () => {
  const text = 'tag;Ch1;Ch2\nA;0,5 V;1 uA\nA;0,6 V;12 uA\nB;0,55 V;3 uA\nB;0,65 V;31 uA\n'
  const curves = curvesOf(text, 'diode', { columns: { Ch1: 'V_F', Ch2: 'I_F' } })
  expect(curves.map((c) => [c.name, c.points.length])).toEqual([
    ['A', 2],
    ['B', 2],
  ])
  expect(curves[1]!.points[0]!.values.I_F).toBeCloseTo(3e-6, 12)
})

test('currents below zero are those of a PNP', () => {
  const text = curveExampleCsv.bjt.replaceAll(
    /^([\d.]*),([\d.]+),([\d.e-]+),([\d.e-]+)$/gm,
    (_, a, b, c, d) => `${a === '' ? '' : `-${a}`},-${b},-${c},-${d}`,
  )
  const pnp = fitCurve(curvesOf(text, 'bjt')[0]!, { temperatureC: 23 })
  const npn = fitCurve(curvesOf(curveExampleCsv.bjt, 'bjt')[0]!, { temperatureC: 23 })
  expect(pnp.polarity).toBe('p')
  expect(pnp.parameters.map((p) => p.value)).toEqual(npn.parameters.map((p) => p.value))
})
