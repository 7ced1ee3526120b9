import { describe, expect, test } from 'vitest'
import type { ChangeEvent, Work, WorkBody } from '#api'
import { demo } from '#catalog'
import { serving } from './serving.ts'

const s = serving()

/** Starts work and follows it to its end, as the page does. */
async function follow(wanted: WorkBody): Promise<{ end: Work; told: readonly Work[] }> {
  const heard = await s.listen()
  const { id } = await s.api().startWork(wanted)
  const isEnd = (e: ChangeEvent): boolean => e.kind === 'work' && e.work.id === id && e.work.state !== 'running'
  const last = await heard.until(isEnd)
  heard.close()
  const told = heard.events.flatMap((e) => (e.kind === 'work' && e.work.id === id ? [e.work] : []))
  return { end: (last as Extract<ChangeEvent, { kind: 'work' }>).work, told }
}

const readings: WorkBody = { kind: 'import', text: demo.readings, file: 'tide.csv', tester: 'larkfield', lot: 'tide' }

describe('an import', () => {
  test('tells how far it is, and its parts are there with their results', async () => {
    const { end, told } = await follow(readings)
    expect(end).toMatchObject({ state: 'done', title: 'Readings from tide.csv', made: { run: 1, parts: 14 } })
    expect(told[0]).toMatchObject({ state: 'running', done: 0 })
    expect(new Set(told.map((work) => work.say))).toContain('Computing results')
    const [block] = (await s.api().drawer()).blocks
    expect(block?.lots.words).toEqual(['tide'])
    expect(block?.verdicts.words).toContain('does not conform')
    expect((await s.api().part('OP-4')).word).toBe('does not conform')
  })

  test('of the same file is refused, unless one says that it is another', async () => {
    const { end } = await follow(readings)
    expect(end).toMatchObject({ state: 'failed', faults: [{ sentence: expect.stringContaining('imported before') }] })
    expect((await follow({ ...readings, again: true })).end.state).toBe('done')
  })

  test('of a bad file says all that is wrong, and nothing of it is kept', async () => {
    const before = await s.api().bookSummary()
    const { end } = await follow({ ...readings, text: 'part,reads,shown\nA,h_FE,lots\nB,valve,3\n' })
    expect(end.state).toBe('failed')
    expect(end.faults?.length).toBeGreaterThanOrEqual(2)
    expect(end.faults?.[0]?.sentence).toContain('tide.csv')
    expect((await s.api().bookSummary()).readings).toBe(before.readings)
  })

  test('that is cancelled leaves nothing behind', async () => {
    const rows = Array.from({ length: 3000 }, (_, i) => `C-${i},2N1305,h_FE,${60 + (i % 90)},middle,1,1.5 V,21 C`)
    const text = `part,type,reads,shown,range,point,supply,ambient\n${rows.join('\n')}\n`
    const before = await s.api().bookSummary()
    const heard = await s.listen()
    const { id } = await s.api().startWork({ ...readings, text, file: 'many.csv' })
    await heard.until((e) => e.kind === 'work' && e.work.id === id && e.work.done > 20)
    expect(await s.api().cancelWork(id)).toMatchObject({ state: 'cancelled', say: 'Cancelled' })
    heard.close()
    expect(await s.api().bookSummary()).toMatchObject({ parts: before.parts, readings: before.readings })
  })
})

describe('a report', () => {
  test('of a lot is a page with its own strict policy', async () => {
    const { end } = await follow({ kind: 'report', lot: 'tide', title: 'The tide gauge <b>', notes: ['For the hut.'] })
    const page = await s.ask(end.made!.url!)
    expect(page.text).toContain('The tide gauge &lt;b&gt;')
    expect(page.text).toContain('For the hut.')
    expect(page.headers['content-security-policy']).toMatch(/^default-src 'none'; style-src 'sha256-/)
  })

  test('of parts that are not there says so', async () => {
    const { end } = await follow({ kind: 'report', tags: ['nobody'] })
    expect(end).toMatchObject({ state: 'failed', faults: [{ code: 'not-found' }] })
    expect((await s.ask(`/api/work/${end.id}/page`)).status).toBe(404)
  })
})

test('a report of many parts that is asked for by its address is made in a thread, and the server answers meanwhile', async () => {
  const rows = Array.from({ length: 60 }, (_, i) => `M-${i},BC107,h_FE,${150 + i},high,1,6 V,21 C`)
  const text = `part,type,reads,shown,range,point,supply,ambient\n${rows.join('\n')}\n`
  await follow({ kind: 'import', text, file: 'sixty.csv', tester: 'larkfield', lot: 'sixty' })
  const asked = s.ask('/api/report?lot=sixty')
  let answers = 0
  let isDone = false
  void asked.then(() => {
    isDone = true
  })
  while (!isDone) {
    await s.api().pairing()
    answers++
  }
  const page = await asked
  expect([page.status, page.text.includes('M-59')]).toEqual([200, true])
  expect(answers).toBeGreaterThan(10)
  expect((await s.ask('/api/report')).status).toBe(400)
  await expect(s.api().startWork({ kind: 'report' })).rejects.toThrow('The report is of nothing')
})

describe('filling', () => {
  test('goes on while readings are taken, and is the same for the same seed', async () => {
    const heard = await s.listen()
    const { id } = await s.api().startWork({ kind: 'fill', parts: 3000, seed: 4 })
    const { run } = await s.api().startRun({ tester: 'larkfield', type: '2N1305' })
    await heard.until((e) => e.kind === 'work' && e.work.id === id && e.work.say === 'Filling the drawers')
    for (let i = 0; i < 10; i++) {
      const sent = { clientId: `while-filling-${i}`, part: `W-${i}`, reads: 'h_FE', range: 'middle', seen: '90' }
      expect((await s.api().addReading(run.id, sent)).isRepeat).toBe(false)
    }
    await heard.until((e) => e.kind === 'work' && e.work.id === id && e.work.state === 'done')
    heard.close()
    expect((await s.api().run(run.id)).readings).toHaveLength(10)
    expect((await s.api().part('F4-00017')).runs[0]?.outcome?.result.state).toMatch(/measured|short/)
    const { end } = await follow({ kind: 'fill', parts: 10, seed: 4 })
    expect(end.faults?.[0]?.sentence).toContain('The parts of seed 4 are in this book already')
  })

  test('gives parts a position can be tried with, though the book has their values in short alone', async () => {
    const { block } = await s.api().drawerChanges(0)
    const { parts } = await s.api().stageParts({ type: '2N1305', count: 5000 })
    const filled = parts.filter((p) => p.name.startsWith('F4-'))
    expect(filled.length).toBeGreaterThan(10)
    const gains = block.symbols.h_FE0 ?? block.symbols.h_FE
    let compared = 0
    for (const part of filled.slice(0, 20)) {
      const value = gains?.value[block.tags.indexOf(part.name)]
      if (part.kind !== 'bipolar') throw new Error('2N1305 is a transistor')
      if (typeof value !== 'number') continue
      compared += 1
      expect(part.gain.usual).toBeCloseTo(value, 3)
    }
    expect(compared).toBeGreaterThan(5)
  })

  test('shows in the list what the part itself comes to', async () => {
    const { rows, block } = await s.api().drawerChanges(0)
    for (const tag of ['F4-00003', 'F4-00100', 'F4-02999']) {
      const at = block.tags.indexOf(tag)
      const story = await s.api().part(tag)
      expect(rows[at]).toBeGreaterThanOrEqual(0)
      expect(block.verdicts.words[block.verdicts.at[at]!]).toBe(story.word)
      for (const parameter of story.runs[0]?.outcome?.result.parameters ?? []) {
        const shown = block.symbols[parameter.symbol]?.value[at]
        if (parameter.standing !== 'measured' || typeof shown !== 'number') continue
        expect(shown).toBeCloseTo(Number(parameter.quantity.value.toPrecision(5)), 12)
      }
    }
  })
})

test('only so much goes on at once', async () => {
  const fill = (seed: number): Promise<Work> => s.api().startWork({ kind: 'fill', parts: 100_000, seed })
  const begun = [await fill(100), await fill(101)]
  await expect(fill(102)).rejects.toThrow('Other long work is going on')
  for (const { id } of begun) expect((await s.api().cancelWork(id)).state).toBe('cancelled')
  await expect(s.api().work('none')).rejects.toThrow('There is no work called "none"')
})
