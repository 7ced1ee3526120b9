import Sqlite from 'better-sqlite3'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type DrawerBlock, type DrawerChanges, rowsPerBlock } from '#api'
import { fillBook, onBench } from '#bench'
import { type Listening, serving } from './serving.ts'

const s = serving()
const now = (): string => '2026-05-02T09:00:00Z'

describe('windows', () => {
  async function listening(body: (heard: Listening) => Promise<void>): Promise<void> {
    const heard = await s.listen()
    try {
      await heard.until((event) => event.kind === 'book')
      await body(heard)
    } finally {
      heard.close()
    }
  }

  test('are told first where the book stands, then which thing changed and by whom', async () => {
    await s.api().makeDemo()
    await listening(async ({ until }) => {
      await s.api().changeParts(['OP-1', 'OP-2'], { place: 'bench' })
      expect(await until((e) => e.kind === 'parts')).toEqual({
        kind: 'parts',
        tags: ['OP-1', 'OP-2'],
        version: (await s.api().bookSummary()).version,
        window: 'test-window',
      })
      expect(await until((e) => e.kind === 'edits')).toEqual({ kind: 'edits', window: 'test-window' })
      await s.api().undo()
      expect(await until((e) => e.kind === 'parts')).toMatchObject({ tags: ['OP-1', 'OP-2'] })
      const { run } = await s.api().startRun({ tester: 'larkfield', type: 'BC107' })
      expect(await until((e) => e.kind === 'run')).toMatchObject({ run: run.id })
      const sent = { clientId: 'window-1', part: 'Q-1', reads: 'h_FE', range: 'high', seen: '240' }
      await s.api().addReading(run.id, sent)
      expect(await until((e) => e.kind === 'parts')).toMatchObject({ tags: ['Q-1'] })
      const text = (await s.api().tester('tallow')).description
      await s.api().saveTester(text)
      expect(await until((e) => e.kind === 'tester')).toMatchObject({ id: 'tallow' })
      await s.api().saveType((await s.api().type('AC128')).text)
      expect(await until((e) => e.kind === 'types')).toEqual({ kind: 'types', window: 'test-window' })
    })
  })

  test('are told of what another program writes to the book', async () => {
    await listening(async ({ until }) => {
      await onBench({ bookFile: s.bookFile(), now }, (bench) => fillBook(bench, { parts: 3, seed: 9 }))
      await until((e) => e.kind === 'book')
      const { hits } = await s.api().search('F9-0000')
      expect(hits.map((hit) => hit.name)).toEqual(['F9-00001', 'F9-00002', 'F9-00003'])
    })
  })

  test('that have gone are not spoken to', async () => {
    const heard = await s.listen()
    await heard.until(() => true)
    heard.close()
    for (let i = 0; i < 20; i++) await s.api().changeParts(['OP-1'], { note: `note ${i}` })
    expect(heard.events.length).toBeLessThan(20)
  })
})

describe('the drawer', () => {
  /** A drawer kept up to date by changes alone, as the page does. */
  function withChanges(block: DrawerBlock, { rows, block: patch, count }: DrawerChanges): Record<string, unknown>[] {
    const before = partsOf(block)
    partsOf(patch).forEach((part, i) => {
      before[rows[i]!] = part
    })
    expect(before).toHaveLength(count)
    return before
  }

  /** Column by column to part by part. */
  function partsOf(block: DrawerBlock): Record<string, unknown>[] {
    const words = ['types', 'lots', 'places', 'statuses', 'usedIn', 'verdicts', 'states'] as const
    return block.tags.map((tag, i) => ({
      tag,
      ...Object.fromEntries(words.map((column) => [column, block[column].words[block[column].at[i]!]])),
      about: [block.notes[i], block.photos[i], block.runs[i]],
      figures: Object.entries(block.symbols)
        .filter(([, column]) => column.value[i] !== null)
        .map(([symbol, column]) => [symbol, column.unit, column.value[i], column.u[i], column.at25[i]])
        .sort(),
    }))
  }

  test('whole, and kept up to date by its changes, is the same', async () => {
    const changes = fc.record({
      tags: fc.uniqueArray(fc.integer({ min: 1, max: 14 }), { minLength: 1, maxLength: 4 }),
      change: fc.oneof(
        fc.record({ place: fc.constantFrom('', 'bag', 'drawer 9') }),
        fc.record({ status: fc.constantFrom('good' as const, 'bad' as const) }),
        fc.record({ note: fc.constantFrom('', 'odd') }),
        fc.record({ lot: fc.constantFrom('', 'new lot') }),
      ),
      isUndone: fc.boolean(),
    })
    await fc.assert(
      fc.asyncProperty(fc.array(changes, { minLength: 1, maxLength: 4 }), async (list) => {
        const first = await s.api().drawer()
        for (const { tags, change, isUndone } of list) {
          const { edit } = await s.api().changeParts(
            tags.map((n) => `OP-${n}`),
            change,
          )
          if (isUndone && edit !== undefined) await s.api().undo(edit)
        }
        const since = await s.api().drawerChanges(first.version)
        const whole = await s.api().drawer()
        expect(withChanges(first.blocks[0]!, since)).toEqual(partsOf(whole.blocks[0]!))
        expect(since.version).toBe(whole.version)
      }),
      { numRuns: 12 },
    )
  })

  test('carries a tag by which a browser asks whether it changed', async () => {
    const first = await s.ask('/api/drawer')
    const headers = { 'if-none-match': String(first.headers.etag) }
    expect((await s.ask('/api/drawer', { headers })).status).toBe(304)
    await s.api().changeParts(['OP-3'], { note: 'another' })
    expect((await s.ask('/api/drawer', { headers })).status).toBe(200)
  })

  test('of many parts comes in blocks, whole or some, and a change makes few of them anew', async () => {
    await onBench({ bookFile: s.bookFile(), now }, (bench) => fillBook(bench, { parts: 5000, seed: 10 }))
    const whole = await s.api().drawer()
    expect(whole.blocks.map((block) => block.tags.length).slice(0, 2)).toEqual([rowsPerBlock, rowsPerBlock])
    expect(whole.blocks.reduce((sum, block) => sum + block.tags.length, 0)).toBe(whole.count)
    expect(await s.api().drawer(1, 1)).toEqual({ ...whole, from: 1, blocks: [whole.blocks[1]] })
    expect((await s.api().drawer(99)).blocks).toEqual([])
    await s.api().changeParts(['F10-04000'], { place: 'elsewhere' })
    const after = await s.api().drawer()
    expect(after.blocks[0]).toEqual(whole.blocks[0])
    const block = after.blocks.find((one) => one.tags.includes('F10-04000'))!
    const row = block.tags.indexOf('F10-04000')
    const { words, at } = block.places
    expect(words[at[row]!]).toBe('elsewhere')
  })
})

describe('while another program writes', () => {
  test('reading goes on, and a write waits for its turn without stopping the server', async () => {
    const other = new Sqlite(s.bookFile())
    other.exec('BEGIN IMMEDIATE')
    let isDone = false
    const write = s.api().changeParts(['OP-2'], { note: 'in its turn' })
    void write.then(() => {
      isDone = true
    })
    for (let i = 0; i < 5; i++) expect((await s.api().part('OP-2')).part.note).not.toBe('in its turn')
    expect(isDone).toBe(false)
    other.exec('COMMIT')
    other.close()
    expect((await write).parts[0]?.note).toBe('in its turn')
  })
})
