import { describe, expect, test } from 'vitest'
import oracle from '../../src/core/identify/lead-pairs.ref.json'
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

interface Document {
  readonly format: string
  readonly parts: readonly {
    readonly part: string
    readonly hypotheses: readonly { readonly text: string; readonly probability: number }[]
    readonly next?: { readonly say: string }
  }[]
}

describe('germane identify', () => {
  test('names the parts of the example, from a file and from standard input', async () => {
    const { out } = await g.run(['identify', '--example'])
    g.write('leads.csv', out)
    const said = await g.run(['identify', 'leads.csv', '--json'])
    const document = oneDocument(said) as unknown as Document
    expect(document.format).toBe('germane/identities/1')
    expect(document.parts.map((p) => p.hypotheses[0]!.text)).toEqual([
      'silicon NPN BJT',
      'germanium PNP BJT',
      'silicon N enhancement MOSFET with body diode',
      'germanium diode',
    ])
    const typed = await g.run(['identify', '-', '--json'], { input: out })
    expect(oneDocument(typed)).toEqual(document)
  })

  test('takes tables of readings at temperatures as JSON', async () => {
    g.write('cases.json', JSON.stringify({ cases: oracle.cases.map(({ id, readings }) => ({ id, readings })) }))
    const document = oneDocument(await g.run(['identify', 'cases.json', '--json'])) as unknown as Document
    expect(document.parts).toHaveLength(15)
    for (const p of document.parts) {
      const sum = p.hypotheses.reduce((s, h) => s + h.probability, 0)
      expect(sum).toBeGreaterThan(0.97)
      expect(sum).toBeLessThanOrEqual(1.000001)
    }
  })

  test('says to people what it is, why, and what to try next', async () => {
    g.write('two.csv', 'part,plus,minus,shows\nX,1,2,0.641 V\nX,2,1,open\nX,1,3,open\n')
    const { out, code } = await g.run(['identify', 'two.csv'])
    expect(code).toBe(0)
    expect(out).toMatch(/What it may be:/)
    expect(out).toMatch(/Why:\n {2}1\+ 2-: 641 mV\./)
    expect(out).toMatch(/Next:\n {2}(Diode check|Ohms, range \w+), red on lead \d, black on lead \d\./)
  })

  test('goes on to types of the catalog that it may be, ranked by gain and outline', async () => {
    const input = 'part,plus,minus,shows\nX,1,2,0.231 V\nX,3,2,0.226 V\nX,2,1,open\nX,2,3,open\nX,1,3,6 kohm on 2M\n'
    const args = ['identify', '-', '--gain', '90', '--outline', 'TO-1', '--json']
    const { parts } = oneDocument(await g.run(args, { input })) as unknown as {
      readonly parts: readonly {
        readonly candidates: { readonly types: readonly { readonly type: string; readonly share: number }[] }
      }[]
    }
    const { types } = parts[0]!.candidates
    expect(types.length).toBeGreaterThan(2)
    expect(types.map((t) => t.share)).toEqual(types.map((t) => t.share).sort((a, b) => b - a))
    const shown = await g.run(['type', 'show', types[0]!.type, '--json'])
    expect(oneDocument(shown)).toMatchObject({
      types: [{ polarity: 'PNP', material: 'Ge', outline: expect.stringContaining('TO-1') }],
    })
  })

  /** Runs a command that was printed, as it stands. */
  const runPrinted = async (command: string) => oneDocument(await g.run([...command.split(' ').slice(1), '--json']))

  test('a transistor that is sure goes on to a run sheet, by a command that works as it is printed', async () => {
    const rows = ['1,2,0.652 V', '1,3,0.671 V', '2,1,open', '3,1,open', '2,3,open', '3,2,open']
    const input = `part,plus,minus,shows\n${rows.map((r) => `X,${r}\n`).join('')}`
    const { out } = await g.run(['identify', '-'], { input })
    const printed = /^ {2}(germane plan unknown .*)$/m.exec(out)![1]!
    expect(await runPrinted(printed)).toMatchObject({ format: 'germane/sheet/1' })
    expect(printed).toContain('--polarity NPN --material Si')
    const on = oneDocument(await g.run(['identify', '-', '--tester', 'marlpit', '--json'], { input }))
    expect(on).toHaveProperty('parts.0.plan', [expect.stringContaining('plan unknown --tester marlpit')])
  })

  test('a type that stands out goes on to its own run sheet; a diode to that of a diode', async () => {
    const pnp = ['1,2,0.231 V', '3,2,0.226 V', '2,1,open', '2,3,open', '1,3,30 uA at 3 V', '1,3,h_FE 90', '3,1,h_FE 3']
    const joined = (r: string): string => (r.includes('h_FE') ? `${r},minus` : `${r},`)
    const input = `part,plus,minus,shows,joined\n${pnp.map((r) => `X,${joined(r)}\n`).join('')}`
    const said = oneDocument(await g.run(['identify', '-', '--marking', 'OC72', '--json'], { input }))
    const [part] = said.parts as readonly [
      {
        readonly plan: readonly string[]
        readonly candidates: { readonly types: readonly { readonly type: string; readonly share: number }[] }
      },
    ]
    expect(part).toMatchObject({ candidates: { marking: { text: 'OC72', says: [expect.stringContaining('valve')] } } })
    expect(part.candidates.types[0]).toMatchObject({ type: 'OC72' })
    expect(part.candidates.types[0]!.share).toBeGreaterThan(0.9)
    expect(part.plan).toHaveLength(2)
    expect(await runPrinted(part.plan[0]!)).toMatchObject({ partType: { type: 'OC72' } })
    const diode = 'part,plus,minus,shows\nD,1,2,0.61 V\nD,2,1,open\nD,2,1,11.9 V from 12 V\n'
    const { out } = await g.run(['identify', '-'], { input: diode })
    const printed = /^ {2}(germane plan unknown .*)$/m.exec(out)![1]!
    expect(printed).toContain('--family diode --material Si')
    expect(await runPrinted(printed)).toMatchObject({ format: 'germane/sheet/1' })
  })

  test('counts what lies in the drawer of the book, and says so', async () => {
    await g.run(['demo', '--book', 'drawer.germane'])
    const input = 'part,plus,minus,shows\nX,1,2,0.231 V\nX,3,2,0.226 V\nX,2,1,open\nX,2,3,open\nX,1,3,6 kohm on 2M\n'
    const { out } = await g.run(['identify', '-', '--types', '--book', 'drawer.germane'], { input })
    expect(out).toMatch(/Your drawer counts: a type of which it holds n parts/)
    expect(out).toMatch(/2N1305 .*\d+ in the drawer/)
  })

  test('offers a gain trial, and breakdown with a word of caution, where they can be made', async () => {
    const rows = ['1,2,0.651 V', '1,3,0.651 V', '2,1,open', '3,1,open', '2,3,open on 2M', '3,2,open on 2M']
    const input = `part,plus,minus,shows\n${rows.map((r) => `X,${r}\n`).join('')}`
    const next = async (...also: string[]) =>
      oneDocument(await g.run(['identify', '-', ...also, '--json'], { input })) as unknown as Document
    expect((await next()).parts[0]!.next).not.toHaveProperty('test')
    const warm =
      'part,plus,minus,shows,joined,temperature\nX,1,2,0.23 V,,\nX,3,1,h_FE 80,minus,\nX,1,3,90 kohm on 2M,,warm\n'
    const said = await g.run(['identify', '-', '--also', 'gain,breakdown'], { input: warm })
    expect(said.out).toMatch(/PNP, C 1 B 2 E 3: h_FE 80\./)
    expect(said.out).toMatch(/1\+ 3-, warm: 90 kΩ on 2M/)
  })

  test('asks for no more than it was told to be sure of', async () => {
    const input = 'part,plus,minus,shows\nX,1,2,open\nX,2,1,0.291 V\n'
    const at = async (sure: string) => oneDocument(await g.run(['identify', '-', '--sure', sure, '--json'], { input }))
    expect((await at('50 %')) as unknown as Document).not.toHaveProperty('parts.0.next')
  })

  test.each([
    [['--meter', 'tube'], /^--meter: "tube" is not known here\. Write one of: digital, needle\./],
    [['--also', 'gain,luck'], /^--also: "luck" is not known here\. Write one of: gain, breakdown\./],
    [['--leads', '4'], /^--leads: "4" is not known here\. Write one of: 2, 3\./],
  ])('refuses %j', async (options, sentence) =>
    expect(refusal(await g.run(['identify', '-', ...options], { input: 'part,plus,minus,shows\n' }))).toMatch(sentence),
  )

  test('every fault of a file at once, with exit code 2', async () => {
    const said = refusal(await g.run(['identify', '-'], { input: 'part,plus,minus,shows\nX,1,9,0.6 V\nX,1,2,4k7\n' }))
    expect(said).toMatch(/row 2, column "minus": "9" is no lead\..*\n.*row 3.*without its range/)
  })
})
