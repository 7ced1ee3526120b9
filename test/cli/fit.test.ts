import { beforeAll, describe, expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { thermalVoltage } from '#core/physics'
import { expectRelative } from '#core/testing'
import reference from '../../src/core/fit/fits.ref.json' with { type: 'json' }
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

interface Parameter {
  readonly symbol: string
  readonly value: number
  readonly u?: number
  readonly low?: number
  readonly high?: number
  readonly standing: string
  readonly why?: string
  readonly limit?: { readonly atMost?: number }
  readonly budget?: readonly { readonly label: string; readonly slope: number; readonly u: number }[]
}

interface Fit {
  readonly parameters: readonly Parameter[]
  readonly held: readonly { readonly symbol: string; readonly why: string }[]
  readonly correlation: { readonly symbols: readonly string[]; readonly matrix: readonly (readonly number[])[] }
  readonly chiSquare: number
  readonly dof: number
  readonly notes: readonly string[]
}

const fitted = async (...args: readonly string[]): Promise<Fit> =>
  oneDocument(await g.run(['fit', ...args, '--json'])) as unknown as Fit

const of = (fit: Fit, symbol: string): Parameter => fit.parameters.find((p) => p.symbol === symbol)!

const setOf = (id: string) => reference.sets.find((s) => s.id === id)!

const csvOf = (id: string, columns: string): string =>
  [columns, ...setOf(id).data.map((row) => row.join(','))].join('\n')

beforeAll(() => {
  g.write('e2.csv', csvOf('s-e2-diode-is-n-rs', 'V_F,I_F,sigma'))
  g.write('e7.csv', csvOf('s-e7-icbo-temperature', 'T [°C],I_CBO [A],u(I_R)'))
  g.write('diode.csv', curveExampleCsv.diode)
  g.write('wild.csv', curveExampleCsv.diode.replace(/^0\.450,.*$/m, '0.450,0.01'))
  g.write(
    'low.csv',
    'V_F,I_F,sigma\n0.40,1e-6,1e-8\n0.42,1.5e-6,1.5e-8\n0.44,2.3e-6,2.3e-8\n0.46,3.4e-6,3.4e-8\n0.48,5.2e-6,5.2e-8\n',
  )
  g.write('off.csv', 'V_F,I_F,sigma\n0.50,1e-5,1e-7\n0.55,3.2e-5,3e-7\n0.60,2e-4,2e-6\n0.65,2.8e-4,3e-6\n')
  g.write('few.csv', 'V_F [V],I_F [mA]\n0.600(1),1.00(1)\n0.650(1),2.91(3)\n0.700(1),8.5(1)\n')
  g.write('bare.csv', 'V_F [V],I_F [mA]\n0.600,1.00\n0.650,2.91\n0.700,8.5\n')
})

describe('what a fit says, against the fits of SciPy and lmfit in src/core/fit/fits.ref.json', () => {
  test.each(['linear', 'log'] as const)(
    'weighted, %s: values, uncertainties, correlation, chi-square',
    async (space) => {
      const { temperatureC, fits } = setOf('s-e2-diode-is-n-rs')
      const fit = await fitted('diode', 'e2.csv', '--space', space, '--temperature', String(temperatureC))
      const wanted = fits[space]
      expectRelative(of(fit, 'n').value, wanted.parameters.N!, 1e-5)
      expectRelative(of(fit, 'n').u!, (wanted.standard_uncertainty as { N: number }).N, 2e-5)
      expect(fit.correlation.symbols).toEqual(['I_S', 'n', 'R_S'])
      expect(fit.correlation.matrix[0]![1]).toBeCloseTo(wanted.correlation[0]![1]!, 4)
      expectRelative(fit.chiSquare, wanted.chi2, 1e-5)
      expect(fit.dof).toBe(wanted.ndof)
    },
  )

  test('the interval is 95 % of a normal law where uncertainties are stated', async () => {
    const n = of(await fitted('diode', 'e2.csv'), 'n')
    // JCGM 100:2008, table G.1: k = 1.960
    expect((n.high! - n.low!) / (2 * n.u!)).toBeCloseTo(1.96, 3)
  })

  test('leakage against temperature', async () => {
    const fit = await fitted('diode', 'e7.csv')
    const wanted = setOf('s-e7-icbo-temperature').fits.linear
    expect(Math.log(of(fit, 'I_S').value)).toBeCloseTo(wanted.parameters.ln_I25!, 3)
    expect(of(fit, 'E_G').value).toBeCloseTo(wanted.parameters.EG!, 4)
    expect(fit.held).toEqual([{ symbol: 'X_TI', value: 3, why: expect.stringContaining('cannot tell it from E_G') }])
  })
})

describe('options', () => {
  test.each(['huber', 'tukey'])('--robust %s: a reading far off hardly moves it', async (rule) => {
    const [clean, plain, robust] = await Promise.all([
      fitted('diode', 'diode.csv', '--space', 'log'),
      fitted('diode', 'wild.csv', '--space', 'log'),
      fitted('diode', 'wild.csv', '--space', 'log', '--robust', rule),
    ])
    const off = (fit: Fit): number => Math.abs(of(fit, 'n').value / of(clean, 'n').value - 1)
    expect(off(robust)).toBeLessThan(0.01)
    expect(off(plain)).toBeGreaterThan(3 * off(robust))
  })

  test('--bound keeps a parameter inside, and says where it rests', async () => {
    const inside = await fitted('diode', 'diode.csv', '--bound', 'n=1:2.5')
    expect(of(inside, 'n').standing).toBe('fitted')
    const resting = await fitted('diode', 'diode.csv', '--bound', 'n=1.9:2')
    expect(of(resting, 'n')).toMatchObject({ value: 1.9, standing: 'held' })
    expect(of(resting, 'n').why).toContain('at its bound')
  })

  test('--fix holds a parameter', async () => {
    const fit = await fitted('diode', 'diode.csv', '--fix', 'N=1.8')
    expect(of(fit, 'n')).toMatchObject({ value: 1.8, standing: 'held', why: 'you gave its value' })
  })

  test('what the readings cannot tell is left out with the reason, not invented', async () => {
    const fit = await fitted('diode', 'low.csv')
    expect(of(fit, 'R_S')).toMatchObject({ value: 0, standing: 'held' })
    expect(of(fit, 'R_S').why).toContain('cannot tell it from being absent')
    expect(of(fit, 'R_S').u).toBeUndefined()
    expect(fit.correlation.symbols).toEqual(['I_S', 'n'])
  })

  test('readings that contradict the law are said to', async () => {
    const fit = await fitted('diode', 'off.csv')
    expect(fit.chiSquare).toBeGreaterThan(100)
    expect(fit.notes.join(' ')).toContain('lie further from the law than their uncertainties allow')
  })

  test.each([
    [['--bound', 'n=2:1'], /--bound: "2:1" is no span/],
    [['--bound', 'x=1:2'], /no parameter of a diode called "x"/],
    [['--fix', 'n=much'], /--fix: "much" is not a number/],
    [['--common', '2 %'], /--common states an uncertainty that only the fit of a hand run counts/],
    [['--temperature', '25(1)'], /--temperature states an uncertainty/],
    [['--hand', '--robust', 'huber'], /--robust does not go with --hand/],
    [['--hand'], /has no uncertainty of its own/],
  ] as const)('refuses %j', async (options, sentence) => {
    expect(refusal(await g.run(['fit', 'diode', 'bare.csv', ...options]))).toMatch(sentence)
  })
})

describe('a few readings by hand', () => {
  test('give parameters with budgets, and a limit to what was left out', async () => {
    const fit = await fitted('diode', 'few.csv', '--hand', '--common', '2 %', '--temperature', '25(1)')
    const n = of(fit, 'n')
    const whole = Math.hypot(...n.budget!.map((t) => t.slope * t.u))
    expect(whole / n.u!).toBeCloseTo(1, 9)
    expect(n.budget!.map((t) => t.label)).toEqual(expect.arrayContaining(['V_F of row 2', 'temperature']))
    // n is in proportion to 1 / T: 1 K of 298.15 K
    const warm = n.budget!.find((t) => t.label === 'temperature')!
    expect((warm.slope * warm.u) / n.value).toBeCloseTo(-1 / 298.15, 5)
    const shared = of(fit, 'I_S').budget!.find((t) => t.label === 'all currents together')!
    expect((shared.slope * shared.u) / of(fit, 'I_S').value).toBeCloseTo(0.02, 4)
    expect(of(fit, 'R_S').limit?.atMost).toBeGreaterThan(0.1)
    expect(fit.dof).toBe(1)
  })

  test('for people: causes, limits, what is held and why', async () => {
    const { out, code } = await g.run([
      'fit',
      'diode',
      'few.csv',
      '--hand',
      '--temperature',
      '25',
      '--fix',
      'R_S=1.0(1)',
    ])
    expect(code).toBe(0)
    expect(out).toContain('R_S held at 1 ohm: you gave its value.')
    expect(out).toMatch(/Doubt comes from:\n {2}I_S: .*R_S as you gave it \d+ %/)
    expect((await g.run(['fit', 'diode', 'few.csv', '--hand'])).out).toMatch(
      /R_S left out: fewer than four forward readings\. For all the readings say it is\s+at most [\d.]+ ohm \(95 %\)\./,
    )
  })

  test('--relative stands for uncertainties that were not written down', async () => {
    const fit = await fitted('diode', 'bare.csv', '--hand', '--relative', '1 %')
    // a line of ln I by V at three voltages 50 mV apart: u of its slope is 1 % / sqrt(sum of squares)
    const n = of(fit, 'n')
    const vt = thermalVoltage(298.15)
    expectRelative(n.u! / n.value, (0.01 / Math.sqrt(2 * 0.05 ** 2)) * n.value * vt, 0.01)
  })
})
