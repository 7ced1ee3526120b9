import { beforeAll, describe, expect, test } from 'vitest'
import { meter, ownType } from './bench.ref.ts'
import { germane, oneDocument, refusal, type Said } from './germane.ts'

const g = germane()

interface Step {
  readonly kind: 'set' | 'wait' | 'read' | 'decide'
  readonly id: string
  readonly reads?: string
}

let steps: readonly Step[] = []

const start = (book: string, ...more: readonly string[]) => [
  ...['run', 'HX-40', '--tester', 'meter.yaml', '--book', `${book}.germane`],
  ...more,
]

/** What the one types who reads the meter, by step; every other step is passed over with an empty line. */
const readings: Readonly<Record<string, string>> = {
  short: 'clear',
  'i-ceo': '20 uA',
  'i-c-1': '10 mA',
  'i-b-1': '100 uA',
}

const typedFor = (step: Step): string => (step.kind === 'read' ? (readings[step.id] ?? 's') : '')

/** Lines typed after one step up to another, the first left out meaning the start. */
function typed(after?: string, upTo?: string): readonly string[] {
  const asked = steps.filter((s) => s.kind !== 'decide')
  const first = after === undefined ? 0 : asked.findIndex((s) => s.id === after) + 1
  const end = upTo === undefined ? asked.length : asked.findIndex((s) => s.id === upTo)
  return asked.slice(first, end).map(typedFor)
}

const lines = (...parts: readonly (string | readonly string[])[]): string =>
  parts
    .flat()
    .map((l) => `${l}\n`)
    .join('')

async function readingsOf(book: string, tag: string) {
  const said = await g.run(['part', 'show', tag, '--book', `${book}.germane`, '--json'])
  const { readings: kept } = oneDocument(said) as {
    readings: { id: number; replaces?: number; reading: { reads: string; seen: string; point: number } }[]
  }
  return kept.map((r) => [
    r.reading.reads,
    r.reading.seen,
    ...(r.replaces === undefined ? [] : [`corrects ${r.replaces}`]),
  ])
}

const whole = [
  ['short', 'clear'],
  ['I_CEO', '20 uA'],
  ['I_C', '10 mA'],
  ['I_B', '100 uA'],
]

beforeAll(async () => {
  g.write('meter.yaml', meter)
  g.write('own.yaml', ownType)
  for (const book of ['a', 'b', 'c', 'd', 'e', 'f'])
    expect((await g.run(['type', 'add', 'own.yaml', '--book', `${book}.germane`])).code).toBe(0)
  const plan = await g.run(['plan', 'HX-40', '--tester', 'meter.yaml', '--book', 'a.germane', '--json'])
  steps = (oneDocument(plan) as unknown as { steps: Step[] }).steps
  expect(steps.map((s) => s.id)).toEqual(expect.arrayContaining(Object.keys(readings)))
})

describe('germane run, with what is typed piped in', () => {
  test('keeps each reading, shows it as it is understood, and ends with the verdicts', async () => {
    const said = await g.run(start('a', '--part', 'Q1'), { input: lines(typed(), '') })
    expect({ code: said.code, err: said.err }).toEqual({ code: 0, err: '' })
    expect(said.out).toMatch(/I_CEO 20\.0 µA on 200 uA +\[kept 2\]/)
    expect(said.out).toContain('Q1: done.')
    expect(said.out).toMatch(/h_FE[^\n]*= conforms/)
    expect(await readingsOf('a', 'Q1')).toEqual(whole)
  })

  test('with --json the talk is on stderr and stdout holds the one document', async () => {
    const said = await g.run(start('a', '--part', 'Q2', '--json'), { input: lines(typed(), '') })
    expect(said.err).toContain('[kept ')
    const document = oneDocument({ ...said, err: '' })
    expect(document).toMatchObject({ format: 'germane/verdicts/1', parts: [{ part: 'Q2', verdict: 'conforms' }] })
  })

  test('takes part after part, and asks for the tag where none was given', async () => {
    const input = lines('R1', typed(), 'R2', typed(), '')
    const said = await g.run(start('b'), { input })
    expect(said.out).toContain('R1: done.')
    expect(said.out).toContain('R2: done.')
    expect(await readingsOf('b', 'R1')).toEqual(whole)
    expect(await readingsOf('b', 'R2')).toEqual(whole)
  })

  test('a short stops the part there', async () => {
    const said = await g.run(start('b', '--part', 'S1'), { input: lines(typed(undefined, 'short'), 'short', '') })
    expect(said).toMatchObject({ code: 1, err: '' })
    expect(said.out).toMatch(/S1: .*short/)
    expect(await readingsOf('b', 'S1')).toEqual([['short', 'short']])
  })
})

describe('what can be typed besides a reading', () => {
  test('nonsense is refused with its mend and asked again; b goes back; a reading typed again corrects the first', async () => {
    const input = lines(typed(undefined, 'i-ceo'), 'some', '400 uA', '4 uA', 'b', '20 uA', typed('i-ceo'), '')
    const said = await g.run(start('c', '--part', 'T1'), { input })
    expect(said.code).toBe(0)
    expect(said.out).toContain('"some" does not begin with a number.')
    expect(said.out).toMatch(/"400 uA" is beyond the range 200 uA\./)
    expect(said.out).toContain('read before: 4 uA; Enter keeps it')
    expect(await readingsOf('c', 'T1')).toEqual([
      ['short', 'clear'],
      ['I_CEO', '4 uA'],
      ['I_CEO', '20 uA', 'corrects 2'],
      ['I_C', '10 mA'],
      ['I_B', '100 uA'],
    ])
  })

  test('back and Enter keeps what was read', async () => {
    const input = lines(typed(undefined, 'i-ceo'), '20 uA', 'b', '', typed('i-ceo'), '')
    await g.run(start('c', '--part', 'T2'), { input })
    expect(await readingsOf('c', 'T2')).toEqual(whole)
  })

  test('? gives advice and asks again; the short check cannot be left out', async () => {
    const input = lines(typed(undefined, 'short'), '?', 's', '', 'clear', typed('short'), '')
    const said = await g.run(start('c', '--part', 'T3'), { input })
    expect(said.code).toBe(0)
    expect(said.out).toMatch(/the needle goes[^\n]*: /)
    expect(said.out.match(/leaves open whether the part is shorted/g)).toHaveLength(2)
    expect(await readingsOf('c', 'T3')).toEqual(whole)
  })
})

describe('a run that is broken off loses nothing', () => {
  const resume = (book: string, ...more: readonly string[]) => ['run', '--resume', '--book', `${book}.germane`, ...more]

  async function expectWhole(book: string, tag: string, resumed: Said): Promise<void> {
    expect(resumed).toMatchObject({ code: 0, err: '' })
    expect(await readingsOf(book, tag)).toEqual(whole)
    expect(oneDocument(await g.run(['book', 'check', '--book', `${book}.germane`, '--json']))).toMatchObject({
      ok: true,
    })
    expect(refusal(await g.run(resume(book)))).toMatch(/^No run was begun and left open in this book\./)
  }

  test('by q', async () => {
    const said = await g.run(start('d', '--part', 'U1'), { input: lines(typed(undefined, 'i-c-1'), 'q') })
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(said.out).toMatch(/Run \d+ is kept as it is\. Go on with: germane run --resume --book d\.germane\n$/)
    const resumed = await g.run(resume('d'), { input: lines(typed('i-ceo'), '') })
    expect(resumed.out).toMatch(/U1 \d+\/\d+ /)
    expect(resumed.out).not.toContain('short =')
    await expectWhole('d', 'U1', resumed)
  })

  test('by the end of what is typed, and by q at the next tag', async () => {
    const said = await g.run(start('d', '--part', 'U2'), { input: lines(typed(undefined, 'i-b-1')) })
    expect(said).toMatchObject({ code: 0, err: '' })
    const again = await g.run(resume('d', '--json'), { input: lines(typed('i-c-1'), 'q') })
    const document = oneDocument({ ...again, err: '' })
    expect(document).toMatchObject({ format: 'germane/run/1', ended: false })
    await expectWhole('d', 'U2', await g.run(resume('d'), { input: lines(typed('i-b-1'), '') }))
  })

  test('what was left out stays so, and is asked for again with --again', async () => {
    const left = await g.run(start('f', '--part', 'W1'), { input: lines(typed(undefined, 'i-c-1'), 's', 'q') })
    expect(left).toMatchObject({ code: 0, err: '' })
    const on = await g.run(resume('f'), { input: lines('q') })
    expect(on.out).toContain('W1: left out before and not asked again: I_C.')
    expect(on.out.replaceAll(/\s+/g, ' ')).toContain('--resume with --again asks for them all')
    expect(on.out).not.toContain('I_C = ')
    const again = await g.run(resume('f', '--again'), { input: lines(typed('i-ceo'), '') })
    expect(again.out).toContain('I_C = ')
    await expectWhole('f', 'W1', again)
    expect(refusal(await g.run(start('f', '--again')))).toMatch(/^--again goes with --resume\./)
  })

  test('by Ctrl-C in the middle', async () => {
    const talk = g.start(start('e', '--part', 'V1'))
    for (const line of typed(undefined, 'i-b-1')) talk.type(line)
    await talk.until('[kept 3]')
    await talk.until('I_B = ')
    talk.child.kill('SIGINT')
    await talk.ended
    expect(await readingsOf('e', 'V1')).toEqual(whole.slice(0, 3))
    await expectWhole('e', 'V1', await g.run(resume('e'), { input: lines(typed('i-c-1'), '') }))
  })
})
