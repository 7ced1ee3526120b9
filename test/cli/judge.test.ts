import { beforeAll, describe, expect, test } from 'vitest'
import { z } from 'zod'
import { fileOf, meter, ownType, readingsOf } from './bench.ref.ts'
import { germane, oneDocument } from './germane.ts'

const g = germane()

const finite = z.number()
const conditions = z.record(z.string(), finite)
const tester = z.strictObject({ id: z.string(), name: z.string() })
const budget = z.strictObject({ cause: z.string().min(1), label: z.string().min(1), contribution: finite.min(0) })
const formula = z.strictObject({
  id: z.string().regex(/^[a-z-]+\/[a-z0-9-]+$/),
  version: z.int().min(1),
  text: z.string().includes('='),
  source: z.string().min(1),
})
const word = z.enum(['conforms', 'does not conform', 'undecided', 'not comparable'])

const parameter = z.strictObject({
  part: z.string().min(1),
  type: z.string().optional(),
  symbol: z.string().min(1),
  value: finite,
  standardUncertainty: finite.min(0),
  unit: z.string().min(1),
  interval95: z.tuple([finite, finite]),
  method: z.enum(['first order', 'first order of the logarithm', 'random trials']),
  temperature: finite,
  temperatureUncertainty: finite.min(0),
  conditions,
  standing: z.string().min(1),
  budget: z.array(budget),
  formula: formula.optional(),
  working: z.array(z.string().min(1)).min(1),
  doubts: z.array(z.string().min(1)),
})

const part = z.strictObject({
  part: z.string().min(1),
  type: z.string().optional(),
  state: z.enum(['measured', 'short', 'open']),
  doubts: z.array(z.string().min(1)),
  leakagePair: z.string().optional(),
})

const parametersDocument = z.strictObject({
  format: z.literal('germane/parameters/1'),
  tester,
  parts: z.array(part),
  parameters: z.array(parameter),
  notes: z.array(z.string()),
})

const verdict = z.strictObject({
  part: z.string().min(1),
  type: z.string(),
  symbol: z.string().min(1),
  limit: z.strictObject({
    symbol: z.string(),
    min: finite.optional(),
    typ: finite.optional(),
    max: finite.optional(),
    unit: z.string(),
    note: z.string().optional(),
  }),
  conditions,
  measuredAt: conditions,
  verdict: word,
  probability: finite.min(0).max(1).nullable(),
  compared: z.strictObject({ value: finite, standardUncertainty: finite.min(0), unit: z.string() }).optional(),
  why: z.string().min(1),
  settle: z.string().min(1).nullable(),
  source: z.string().min(1),
})

const verdictsDocument = parametersDocument.extend({
  format: z.literal('germane/verdicts/1'),
  rule: z.strictObject({ kind: z.enum(['guarded', 'simple']), probability: finite }),
  parts: z.array(part.extend({ verdict: word.optional() })),
  verdicts: z.array(verdict),
})

type Verdicts = z.infer<typeof verdictsDocument>

/** What holds for every document of parameters, whatever was measured. */
function expectSound(document: Pick<z.infer<typeof parametersDocument>, 'parts' | 'parameters'>): void {
  for (const p of document.parameters) {
    const name = `${p.part} ${p.symbol}`
    const squares = p.budget.reduce((sum, b) => sum + b.contribution ** 2, 0)
    expect(Math.abs(Math.sqrt(squares) - p.standardUncertainty), name).toBeLessThanOrEqual(1e-9 * p.standardUncertainty)
    const [low, high] = p.interval95
    expect(low, name).toBeLessThanOrEqual(high)
    if (p.method === 'first order') {
      expect(p.value - low, name).toBeCloseTo(high - p.value, 12)
      // of errors with one standard uncertainty a single limit reaches least: 0.95 sqrt(3) of it (JCGM 100:2008, G.6.5)
      expect(high - low, name).toBeGreaterThanOrEqual(2 * 1.645 * p.standardUncertainty)
    }
    if (p.formula !== undefined) expect(p.working.join('\n'), name).toContain(p.formula.text)
    expect(document.parts.map((o) => o.part)).toContain(p.part)
  }
}

const inTheMiddle = readingsOf('IN', '40 uA', '10.04 mA', '100 uA')
const outOfIt = readingsOf('OUT', '0.2 mA', '10.2 mA', '100 uA')
const onTheLimit = readingsOf('EDGE', '50 uA', '10.05 mA', '100 uA')

beforeAll(async () => {
  g.write('meter.yaml', meter)
  g.write('own.yaml', ownType)
  g.write('lot.csv', fileOf(inTheMiddle, outOfIt, onTheLimit))
  const added = await g.run(['type', 'add', 'own.yaml', '--book', 'own.germane'])
  expect(added.code).toBe(0)
})

const judged = async (...more: readonly string[]): Promise<Verdicts> => {
  const args = ['judge', 'lot.csv', '--tester', 'meter.yaml', '--type', 'HX-40', '--book', 'own.germane', '--json']
  return verdictsDocument.parse(oneDocument(await g.run([...args, ...more]), [1]))
}

describe('reduce FILE --tester T.yaml --json', () => {
  test('prints parameters as documented, each with a budget that adds up', async () => {
    const said = await g.run(['reduce', 'lot.csv', '--tester', 'meter.yaml', '--json'])
    const document = parametersDocument.parse(oneDocument(said))
    expectSound(document)
    expect(document.tester).toEqual({ id: 'twin-meter', name: 'Twin meter' })
    expect(document.parts.map((p) => p.part)).toEqual(['EDGE', 'IN', 'OUT'])
  })

  test('gain without leakage is (I_C - I_CEO) / I_B, with the doubt one works out by hand', async () => {
    const said = await g.run(['reduce', 'lot.csv', '--tester', 'meter.yaml', '--type', 'unknown', '--json'])
    const { parameters } = parametersDocument.parse(oneDocument(said))
    const gain = parameters.find((p) => p.part === 'OUT' && p.symbol === 'h_FE0' && p.standing === 'measured')!
    expect(gain.value).toBeCloseTo((10.2 - 0.2) / 0.1, 9)
    expect(gain.formula?.text).toBe('h_FE0 = (I_C - I_CEO) / I_B')
    // 1 % of reading is a limit: over sqrt 3. The 20 mA range errs alike for I_C and I_CEO, so it moves their difference.
    const collectorRange = (100 * 0.01) / Math.sqrt(3)
    const baseRange = (100 * 0.01) / Math.sqrt(3)
    // Half a last digit either way: the digit over sqrt 12, for I_C and I_CEO 10 uA, for I_B 0.1 uA of 100.
    const digits = Math.hypot(10 / 100, 10 / 100, (100 * 0.1) / 100) / Math.sqrt(12)
    expect(gain.standardUncertainty).toBeCloseTo(Math.hypot(collectorRange, baseRange, digits), 9)
    const byCause = new Map(gain.budget.map((b) => [b.cause, b.contribution]))
    expect(byCause.get('twin-meter/range/20 mA/gain')).toBeCloseTo(collectorRange, 9)
    expect(byCause.get('twin-meter/range/200 uA/gain')).toBeCloseTo(baseRange, 9)
    expect(gain.budget.length).toBe(5)
    expect(gain.working).toContain('  h_FE0 = (10.2 mA - 200 µA) / 100 µA')
    expect(gain).toMatchObject({ unit: '1', temperature: 25, method: 'first order' })
  })
})

describe('judge FILE --tester T.yaml --type TYPE --json', () => {
  test('prints parameters and verdicts as documented; exit code 1 says that something does not conform', async () => {
    const document = await judged()
    expectSound(document)
    expect(document.rule).toEqual({ kind: 'guarded', probability: 0.95 })
    for (const v of document.verdicts) {
      expect(v.type).toBe('HX-40')
      expect(v.source).toBe('Own sheet 1')
      expect(v.settle === null).toBe(v.verdict === 'conforms' || v.verdict === 'does not conform')
    }
  })

  test('in, out and on the limit', async () => {
    const { verdicts, parts } = await judged()
    const leakage = (tag: string) => verdicts.find((v) => v.part === tag && v.symbol === 'I_CEO')!
    expect(leakage('IN')).toMatchObject({ verdict: 'conforms', limit: { max: 50e-6, unit: 'A' } })
    expect(leakage('IN').conditions).toEqual({ V_CE: 5, T: 25 })
    expect(leakage('IN').probability).toBeGreaterThan(0.95)
    expect(leakage('OUT')).toMatchObject({ verdict: 'does not conform' })
    expect(leakage('OUT').probability).toBeLessThan(0.001)
    expect(leakage('EDGE')).toMatchObject({ verdict: 'undecided' })
    expect(leakage('EDGE').probability).toBeCloseTo(0.5, 1)
    expect(leakage('EDGE').settle).toMatch(/./)
    for (const tag of ['IN', 'OUT', 'EDGE'])
      expect(verdicts.find((v) => v.part === tag && v.symbol === 'h_FE')).toMatchObject({
        verdict: 'conforms',
        limit: { min: 80, max: 120 },
      })
    expect(parts.map((p) => [p.part, p.verdict])).toEqual([
      ['EDGE', 'undecided'],
      ['IN', 'conforms'],
      ['OUT', 'does not conform'],
    ])
  })

  test('the simple rule decides by the likelier side, a milder guard by less certainty', async () => {
    const simple = await judged('--rule', 'simple')
    const words = simple.verdicts.filter((v) => v.part === 'EDGE').map((v) => v.verdict)
    expect(words).not.toContain('undecided')
    const mild = await judged('--sure', '60 %')
    expect(mild.rule).toEqual({ kind: 'guarded', probability: 0.6 })
  })

  test('a short is a verdict by itself', async () => {
    g.write('short.csv', `${fileOf()}S1,short,short,,,,25 degC\n`)
    const args = ['judge', 'short.csv', '--tester', 'meter.yaml', '--type', 'HX-40', '--book', 'own.germane', '--json']
    const document = verdictsDocument.parse(oneDocument(await g.run(args), [1]))
    expect(document.parts).toMatchObject([{ part: 'S1', type: 'HX-40', state: 'short', verdict: 'does not conform' }])
    expect(document.parts[0]?.doubts.join()).toMatch(/short/)
    expect([document.parameters, document.verdicts]).toEqual([[], []])
  })

  test('exit code 0 where nothing fails, also where nothing can be compared', async () => {
    g.write('good.csv', fileOf(inTheMiddle))
    const common = ['judge', 'good.csv', '--tester', 'meter.yaml', '--json']
    oneDocument(await g.run([...common, '--type', 'HX-40', '--book', 'own.germane']), [0])
    const unknown = verdictsDocument.parse(oneDocument(await g.run([...common, '--type', 'unknown']), [0]))
    expect(unknown.verdicts).toEqual([])
    const unheard = verdictsDocument.parse(oneDocument(await g.run([...common, '--type', 'HX-41']), [0]))
    expect(unheard.notes.join()).toContain('HX-41')
  })

  test('the demo: every document is sound', async () => {
    const document = verdictsDocument.parse(oneDocument(await g.run(['demo', '--json'])))
    expectSound(document)
    expect(document.parts.length).toBeGreaterThanOrEqual(12)
    expect(new Set(document.parts.map((p) => p.verdict))).toEqual(
      new Set(['conforms', 'does not conform', 'undecided']),
    )
  })

  test('- is standard input, and so is a decimal comma after semicolons', async () => {
    const text = fileOf(inTheMiddle).replaceAll(',', ';').replaceAll('10.04', '10,04')
    const args = ['reduce', '-', '--tester', 'meter.yaml', '--json']
    const document = parametersDocument.parse(oneDocument(await g.run(args, { input: text })))
    expect(document.parameters.find((p) => p.symbol === 'I_CEO')?.value).toBeCloseTo(40e-6, 15)
    expect(document.notes.join()).toMatch(/semicolons.*decimal commas/)
  })

  test.each([
    ['a byte order mark', (t: string) => `\ufeff${t}`],
    ['line ends of other systems', (t: string) => t.replaceAll('\n', '\r\n')],
    ['both, and blank rows', (t: string) => `\ufeff\r\n${t.replaceAll('\n', '\r\n\r\n')}`],
  ])('%s makes no difference', async (_, change) => {
    const args = ['reduce', '-', '--tester', 'meter.yaml', '--json']
    const plain = oneDocument(await g.run(args, { input: fileOf(inTheMiddle) }))
    expect(oneDocument(await g.run(args, { input: change(fileOf(inTheMiddle)) }))).toEqual(plain)
  })
})
