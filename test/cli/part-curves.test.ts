import { beforeAll, describe, expect, test } from 'vitest'
import { curveExampleCsv } from '#core/fit'
import { pageFaults } from '#report/testing'
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

const book = ['--book', 'bench.germane']

beforeAll(async () => {
  g.write('D1.csv', curveExampleCsv.diode)
  g.write(
    'D2.csv',
    curveExampleCsv.diode.replaceAll(/^(0\.[\d]+),/gm, (_, v: string) => `${Number(v) + 0.01},`),
  )
  g.write('pnp.csv', 'V_CE,I_B,I_C\n-1,-1e-5,-1e-3\n-5,-1e-5,-1.05e-3\n-9,-1e-5,-1.1e-3\n')
  g.write('two.csv', 'part,V_F,I_F\nD7,0.5,1e-6\nD7,0.6,1e-5\nD8,0.5,1e-6\nD8,0.6,1e-5\n')
  expect((await g.run(['book', 'create', 'bench.germane'])).code).toBe(0)
  const first = ['--temperature', '23', '--taken', '2026-04-30', '--note', 'before soldering']
  expect(await g.run(['part', 'curve', 'D1', 'D1.csv', ...first, ...book])).toMatchObject({
    code: 0,
    out: 'D1: curve 1 is kept, 25 rows of a diode.\n',
  })
})

describe('curves of parts in a book', () => {
  test('are listed with what is known of them', async () => {
    const { out } = await g.run(['part', 'curves', 'D1', ...book])
    expect(out).toMatch(/^ +1 +D1 +diode +25 +23 °C +2026-04-30 +D1\.csv +before soldering$/m)
  })

  test('come out as they went in, and fit as they did', async () => {
    const { out } = await g.run(['part', 'curves', 'D1', '--csv', ...book])
    const fitted = async (args: readonly string[], input?: string) => {
      const said = await g.run(['fit', 'diode', ...args, '--json'], input === undefined ? {} : { input })
      return oneDocument(said).parameters
    }
    expect(await fitted(['-'], out)).toEqual(await fitted(['D1.csv']))
  })

  test('of a PNP transistor come out with the signs of their file', async () => {
    await g.run(['part', 'curve', 'Q1', '-', ...book], { input: g.read('pnp.csv') })
    const { out } = await g.run(['part', 'curves', 'Q1', '--csv', ...book])
    expect(out).toBe('V_CE,I_B,I_C\n-1,-0.00001,-0.001\n-5,-0.00001,-0.00105\n-9,-0.00001,-0.0011\n')
  })

  test('of several parts are drawn over each other', async () => {
    await g.run(['part', 'curve', 'D2', 'D2.csv', ...book])
    const { out } = await g.run(['part', 'curves', 'D1', 'D2', '--plot', 'log', ...book])
    expect(out).toMatch(/^<svg .*>D1<\/text>.*>D2<\/text>.*<\/svg>\n$/s)
    await g.run(['part', 'curves', 'D1', 'D2', '--plot', 'log', '--write', 'both.svg', ...book])
    expect(g.read('both.svg')).toBe(out)
  })

  test('of a file with several parts are taken by tag', async () => {
    const document = oneDocument(await g.run(['part', 'curve', 'D8', 'two.csv', '--json', ...book]))
    expect(document).toMatchObject({ curves: [{ part: 'D8', points: { length: 2 } }] })
  })

  test('go with the book wherever it goes', async () => {
    const { out } = await g.run(['book', 'export', ...book])
    g.write('book.json', out)
    await g.run(['book', 'import', 'book.json', 'other.germane'])
    const [here, there] = await Promise.all(
      ['bench.germane', 'other.germane'].map((b) => g.run(['part', 'curves', 'D1', '--json', '--book', b])),
    )
    expect(there!.out).toBe(here!.out)
    expect((await g.run(['book', 'check', '--book', 'other.germane'])).code).toBe(0)
  })

  test('stand in the report of their parts, those of one kind over each other', async () => {
    const demo = ['--book', 'demo.germane']
    await g.run(['demo', ...demo])
    const without = (await g.run(['report', '--lot', 'orrin-point', ...demo])).out
    expect(without).not.toContain('id="curves"')
    for (const [tag, file] of [
      ['OP-1', 'D1.csv'],
      ['OP-2', 'D2.csv'],
      ['OP-3', 'pnp.csv'],
    ] as const)
      await g.run(['part', 'curve', tag, file, '--temperature', '21', ...demo])
    const { out } = await g.run(['report', '--lot', 'orrin-point', ...demo])
    expect(pageFaults(out)).toEqual([])
    const curves = out.slice(out.indexOf('id="curves"'), out.indexOf('id="each"'))
    expect(curves.match(/<figcaption>[^<]*/g)).toEqual([
      '<figcaption>OP-1 at 21 °C; OP-2 at 21 °C.',
      '<figcaption>OP-3 at 21 °C.',
    ])
    expect(curves.match(/class="plot wide"/g)).toHaveLength(2)
  })

  test.each([
    [['curve', 'D1', 'D1.csv'], /D1\.csv was kept before for D1: curve 1, .* say so with --again\./],
    [['curve', 'D9', 'two.csv'], /"D7, D8" is what its column "part" names, and not D9\./],
    [['curve', 'D1', 'D1.csv', '--again', '--taken', 'May'], /--taken: "May" is not a date or a time\. Write it as/],
    [['curve', 'D1', 'D1.csv', '--temperature', '900'], /--temperature: "900" is no temperature of a part/],
    [['curve', ' ', 'D1.csv'], /is no tag/],
    [['curves', 'D5'], /There is no part in the book called "D5"\./],
    [['curves', 'D1', '--number', '77'], /There is no curve of D1 in the book called "77"\./],
    [['curves', 'D1', 'Q1', '--csv'], /--csv is for one part, and 2 were named\./],
    [['curves', 'D1', '--write', 'x.gif'], /x\.gif: is no name of a picture\./],
  ] as const)('refuses part %j', async (args, sentence) => {
    expect(refusal(await g.run(['part', ...args, ...book]))).toMatch(sentence)
  })
})
