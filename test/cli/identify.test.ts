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
    expect(out).toMatch(/Next:\n {2}Diode check, red on lead \d, black on lead \d\./)
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

  test('a transistor that is sure goes on to a run sheet', async () => {
    const input = 'part,plus,minus,shows\nX,1,2,0.652 V\nX,1,3,0.661 V\nX,2,1,open\nX,3,1,open\nX,2,3,open\n'
    const { out } = await g.run(['identify', '-', '--sure', '80 %'], { input })
    const line = /germane (plan unknown .*)$/m.exec(out)![1]!
    const args = line.replace('TESTER', 'larkfield').split(' ')
    expect(oneDocument(await g.run([...args, '--json']))).toMatchObject({ format: 'germane/sheet/1' })
  })

  test('asks for no more than it was told to be sure of', async () => {
    const input = 'part,plus,minus,shows\nX,1,2,open\nX,2,1,0.291 V\n'
    const at = async (sure: string) => oneDocument(await g.run(['identify', '-', '--sure', sure, '--json'], { input }))
    expect((await at('50 %')) as unknown as Document).not.toHaveProperty('parts.0.next')
  })

  test.each([
    [['--meter', 'tube'], /^--meter: "tube" is none of its words\. Write one of: digital, needle\./],
    [['--leads', '4'], /^--leads: "4" is none of its words\. Write one of: 2, 3\./],
  ])('refuses %j', async (options, sentence) =>
    expect(refusal(await g.run(['identify', '-', ...options], { input: 'part,plus,minus,shows\n' }))).toMatch(sentence),
  )

  test('every fault of a file at once, with exit code 2', async () => {
    const said = refusal(await g.run(['identify', '-'], { input: 'part,plus,minus,shows\nX,1,9,0.6 V\nX,1,2,4k7\n' }))
    expect(said).toMatch(/row 2, column "minus": "9" is no lead\..*\n.*row 3.*without its range/)
  })
})
