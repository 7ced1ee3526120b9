import { beforeAll, describe, expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

/** The example of a diode with every current greater by a factor. */
const scaled = (factor: number): string =>
  curveExampleCsv.diode.replaceAll(/^([\d.]+),(.+)$/gm, (_, v: string, i: string) => `${v},${Number(i) * factor}`)

beforeAll(() => {
  g.write('D1.csv', curveExampleCsv.diode)
  g.write('D2.csv', scaled(1.25))
  g.write('Q1.csv', curveExampleCsv.bjt)
})

interface Comparison {
  readonly comparisons: readonly { readonly others: readonly { name: string; rms: number; relative: number[] }[] }[]
}

describe('germane curve', () => {
  test('says what a file holds and how it can be seen', async () => {
    const { code, out, err } = await g.run(['curve', 'Q1.csv'])
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toMatch(/^I_C +V_BE +V_CE 4\.5 V +18 +400 mV +740 mV +138\.6 nA +34\.78 mA$/m)
    expect(out).toContain('It can be seen as lin, log, gummel, gain, output: --plot.')
  })

  test.each(['lin', 'log', 'gummel', 'gain', 'output'])('draws a transistor as %s, into SVG and PNG', async (view) => {
    const printed = await g.run(['curve', 'Q1.csv', '--plot', view])
    expect(printed).toMatchObject({ code: 0, err: '', out: expect.stringMatching(/^<svg xmlns=.*<\/svg>\n$/s) })
    expect((await g.run(['curve', '-', '--plot', view], { input: curveExampleCsv.bjt })).out).toBe(
      printed.out.replaceAll('Q1.csv', 'standard input'),
    )
    await g.run(['curve', 'Q1.csv', '--plot', view, '--write', `${view}.svg`])
    expect(g.read(`${view}.svg`)).toBe(printed.out)
    await g.run(['curve', 'Q1.csv', '--plot', view, '--write', `${view}.png`])
    expect(g.bytes(`${view}.png`).subarray(0, 8)).toEqual(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'))
  })

  test('compares: a curve of 1.25 times the current is 25 % away everywhere', async () => {
    const args = ['curve', 'D1.csv', 'D2.csv', '--compare']
    const document = oneDocument(await g.run([...args, '--json'])) as unknown as Comparison
    const [other] = document.comparisons[0]!.others
    expect(other!.name).toBe('D2.csv')
    for (const r of other!.relative) expect(r).toBeCloseTo(0.25, 6)
    const { out } = await g.run([...args, '--write', 'both.svg'])
    expect(out).toMatch(/^D2\.csv +25 % +25 %/m)
    expect(g.read('both.svg')).toContain('Difference in forward current, %')
  })

  test.each(['linear', 'log'])('resamples with %s steps into a table that reads again', async (spacing) => {
    const { out } = await g.run(['curve', 'D1.csv', '--points', '7', '--spacing', spacing])
    expect(out.split('\n').filter((l) => /^\d/.test(l))).toHaveLength(7)
    const again = await g.run(['curve', '-', '--json'], { input: out })
    expect(oneDocument(again)).toMatchObject({ curves: [{ kind: 'diode', sweeps: [{ points: { length: 7 } }] }] })
    await g.run(['curve', 'D1.csv', '--points', '7', '--spacing', spacing, '--write', 'again.csv'])
    expect(g.read('again.csv')).toBe(out)
  })

  test('a resampled transistor keeps what was held, both currents to a row', async () => {
    const { out } = await g.run(['curve', 'Q1.csv', '--plot', 'gummel', '--points', '3', '--write', 'three.csv'])
    expect(out).toBe('three.csv is written.\n')
    expect(g.read('three.csv')).toMatch(/^V_BE,V_CE,I_C,I_B\n0\.4,4\.5,1\.386e-7,1\.811e-9\n/m)
  })

  test.each([
    [['D1.csv', '--points', '5', '--to', '1 V'], /V_F that was asked for is 1 V; it must be between 200 mV and 800 mV/],
    [['D1.csv', '--points', '5', '--from', '0.1'], /is 100 mV; it must be between/],
    [['D1.csv', '--points', '1'], /--points: "1" is no number of places/],
    [['D1.csv', '--points', '5', '--from', '1 mA'], /--from: "1 mA" /],
    [['D1.csv', '--plot', 'gummel'], /"gummel" is a view .* It shows lin, log\./],
    [['D1.csv', 'Q1.csv'], /D1\.csv is the curve of a diode and Q1\.csv that of a bjt\./],
    [['D1.csv', '--compare'], /One curve alone cannot be compared\./],
    [['D1.csv', 'D2.csv', '--compare', '--from', '0.3'], /Curves are compared where all of them were read/],
    [['Q1.csv', '--plot', 'lin', '--points', '5', '--from', '0.5'], /runs along V_BE and V_CE, so an end is not clear/],
    [['D1.csv', '--write', 'x.jpg'], /x\.jpg: is no name of a picture\. Let it end in \.svg or \.png\./],
    [['D1.csv', '--write', 'x.csv'], /no number of places was given\. Add --points/],
    [['D1.csv', '--kind', 'triode'], /no kind of part to fit called "triode"/],
    [[], /No curve was named\./],
  ] as const)('refuses %j', async (args, sentence) => {
    expect(refusal(await g.run(['curve', ...args]))).toMatch(sentence)
  })
})
