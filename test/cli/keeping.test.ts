import { beforeAll, describe, expect, test } from 'vitest'
import { fileOf, meter, ownType, readingsOf } from './bench.ref.ts'
import { germane, oneDocument } from './germane.ts'

const g = germane()

const book = ['--book', 'bench.germane']

const json = async (...args: readonly string[]) => oneDocument(await g.run([...args, '--json']))

beforeAll(async () => {
  g.write('meter.yaml', meter)
  g.write('own.yaml', ownType)
  g.write(
    'lot.csv',
    fileOf(readingsOf('A1', '20 uA', '10.02 mA', '100 uA'), readingsOf('A2', '0.2 mA', '10.2 mA', '100 uA')),
  )
  expect((await g.run(['book', 'create', 'bench.germane'])).code).toBe(0)
  expect((await g.run(['type', 'add', 'own.yaml', ...book])).code).toBe(0)
  const kept = await g.run([
    ...['judge', 'lot.csv', '--tester', 'meter.yaml', '--type', 'HX-40', '--keep', '--lot', 'Bag 7'],
    ...book,
  ])
  expect({ code: kept.code, err: kept.err }).toEqual({ code: 1, err: '' })
})

describe('a book', () => {
  test('counts what came into it and finds nothing wrong', async () => {
    expect(await json('book', 'info', ...book)).toMatchObject({ counts: { part: 2, reading: 8, run: 1, lot: 1 } })
    const check = await json('book', 'check', ...book)
    expect(check).toMatchObject({ ok: true, findings: [] })
    expect(check.recomputed).toBeGreaterThan(0)
  })

  test('takes a file twice only when it is told to', async () => {
    const args = ['judge', 'lot.csv', '--tester', 'meter.yaml', '--type', 'HX-40', '--keep', '--book', 'twice.germane']
    expect((await g.run(['book', 'create', 'twice.germane'])).code).toBe(0)
    expect((await g.run(args)).code).toBe(0)
    const again = await g.run(args)
    expect({ code: again.code, out: again.out }).toEqual({ code: 2, out: '' })
    expect(again.err).toMatch(/lot\.csv/)
    expect((await g.run([...args, '--again'])).code).toBe(0)
    expect(await json('book', 'info', '--book', 'twice.germane')).toMatchObject({ counts: { part: 2, reading: 16 } })
  })

  test('is backed up to a copy that holds the same, and never over another file', async () => {
    const made = await json('book', 'backup', 'copy.germane', ...book)
    expect(made).toMatchObject({ file: 'copy.germane', counts: { reading: 8 } })
    expect(made.bytes).toBe(g.bytes('copy.germane').length)
    expect((await g.run(['book', 'backup', 'copy.germane', ...book])).code).toBe(2)
    const whole = await g.run(['book', 'export', ...book])
    expect((await g.run(['book', 'export', '--book', 'copy.germane'])).out).toBe(whole.out)
  })

  test('goes out as JSON and comes back the same', async () => {
    const { out } = await g.run(['book', 'export', ...book])
    expect(JSON.parse(out)).toMatchObject({ format: 'germane/book/1' })
    g.write('whole.json', out)
    expect((await g.run(['book', 'import', 'whole.json', 'back.germane'])).code).toBe(0)
    expect((await g.run(['book', 'export', '--book', 'back.germane'])).out).toBe(out)
    expect(await json('book', 'check', '--book', 'back.germane')).toMatchObject({ ok: true })
  })

  test('goes out as CSV that judges to the same numbers', async () => {
    const written = await json('book', 'export', '--csv', '--out', 'readings.csv', ...book)
    expect(written).toEqual({ format: 'germane/written/1', file: 'readings.csv' })
    const reduce = (file: string) => json('reduce', file, '--tester', 'meter.yaml', '--type', 'HX-40', ...book)
    const [from, again] = [await reduce('lot.csv'), await reduce('readings.csv')]
    expect(again.parameters).toEqual(from.parameters)
  })
})

describe('parts', () => {
  test('are listed, by lot as well', async () => {
    const { parts } = (await json('part', 'list', '--lot', 'Bag 7', ...book)) as { parts: { tag: string }[] }
    expect(parts.map((p) => p.tag)).toEqual(['A1', 'A2'])
    expect((await g.run(['part', 'list', ...book])).out).toMatch(/A2 +HX-40 +Bag 7 .*\n\n2 parts\.\n$/)
    expect((await g.run(['part', 'list', '--lot', 'Bag 8', ...book])).code).toBe(2)
  })

  test('show their readings and results', async () => {
    const story = await json('part', 'show', 'A2', ...book)
    expect(story).toMatchObject({
      format: 'germane/part/1',
      part: { tag: 'A2', type: 'HX-40', lot: 'Bag 7', status: 'kept' },
      readings: [{ reading: { reads: 'short' } }, {}, {}, {}],
      results: { format: 'germane/verdicts/1', parts: [{ part: 'A2', verdict: 'does not conform' }] },
    })
    const working = await g.run(['part', 'show', 'A2', '--working', ...book])
    expect(working.out).toContain('h_FE0 = (10.2 mA - 200 µA) / 100 µA')
  })

  test('keep what was said of them before it was changed', async () => {
    const changed = await json('part', 'edit', 'A1', '--place', 'drawer 3', '--note', 'short leads', ...book)
    expect(changed).toMatchObject({ parts: [{ tag: 'A1', place: 'drawer 3', note: 'short leads' }] })
    await json('part', 'edit', 'A1', '--place', 'drawer 4', '--note', '', ...book)
    const { part, edits } = (await json('part', 'show', 'A1', ...book)) as {
      part: Record<string, unknown>
      edits: readonly Record<string, unknown>[]
    }
    expect(part).toMatchObject({ place: 'drawer 4' })
    expect(part).not.toHaveProperty('note')
    expect(edits.filter((e) => e.field !== 'lot').map(({ at: _, ...e }) => e)).toEqual([
      { field: 'place', new: 'drawer 3' },
      { field: 'note', new: 'short leads' },
      { field: 'place', old: 'drawer 3', new: 'drawer 4' },
      { field: 'note', old: 'short leads' },
    ])
  })

  test('a corrected reading stays, and the results follow', async () => {
    const before = (await json('part', 'show', 'A2', ...book)) as {
      readings: { id: number; reading: { reads: string } }[]
    }
    const leakage = before.readings.find((r) => r.reading.reads === 'I_CEO')!
    const corrected = await json('part', 'correct', String(leakage.id), '20 uA', ...book)
    expect(corrected).toMatchObject({ format: 'germane/correction/1', kept: { replaces: leakage.id } })
    const after = await json('part', 'show', 'A2', ...book)
    expect(after).toMatchObject({ results: { parts: [{ part: 'A2', verdict: 'conforms' }] } })
    expect((after.readings as unknown[]).length).toBe(5)
    expect(await json('book', 'check', ...book)).toMatchObject({ ok: true })
  })
})

describe('a report', () => {
  const isWhole = (html: string): void => {
    expect(html).toMatch(/^<!doctype html>/i)
    expect(html.trimEnd()).toMatch(/<\/html>$/)
    expect(html).not.toMatch(/<script|<link|<img|<iframe|@import|url\(|\bsrc=|https?:\/\/(?!www\.w3\.org\/)/i)
  }

  test('of a file is one page with nothing outside it', async () => {
    const said = await g.run([
      'report',
      'lot.csv',
      '--tester',
      'meter.yaml',
      '--type',
      'HX-40',
      '--title',
      'Bag <7>',
      ...book,
    ])
    expect({ code: said.code, err: said.err }).toEqual({ code: 0, err: '' })
    isWhole(said.out)
    expect(said.out).toContain('Bag &lt;7&gt;')
    expect(said.out).toContain('HX-40')
    expect(said.out).toContain('<svg')
  })

  test('of parts in the book, written to a file', async () => {
    const args = ['report', '--part', 'A1', '--part', 'A2', '--note', 'For the drawer.', '--out', 'page.html', ...book]
    expect(await json(...args)).toEqual({ format: 'germane/report/1', file: 'page.html', html: null })
    const page = g.read('page.html')
    isWhole(page)
    expect(page).toContain('For the drawer.')
    const lot = await g.run(['report', '--lot', 'Bag 7', '--out', 'lot.html', ...book])
    expect(lot).toMatchObject({ code: 0, err: '', out: 'lot.html is written; open it in a browser.\n' })
    isWhole(g.read('lot.html'))
  })
})

describe('testers and types of the book', () => {
  test('a changed description makes a new version, an unchanged one does not', async () => {
    g.write('changed.yaml', meter.replace('ofReading: 1 %', 'ofReading: 2 %'))
    expect(await json('tester', 'add', 'meter.yaml', ...book)).toMatchObject({
      id: 'twin-meter',
      version: 1,
      isNew: false,
    })
    expect(await json('tester', 'add', 'changed.yaml', ...book)).toMatchObject({ version: 2, isNew: true })
    const { testers } = (await json('tester', 'list', ...book)) as { testers: Record<string, unknown>[] }
    expect(testers[0]).toMatchObject({ id: 'twin-meter', from: 'book', version: 2 })
    expect(await json('tester', 'show', 'twin-meter', ...book)).toMatchObject({ from: 'book', version: 2 })
  })

  test('a type of the book goes before the catalog', async () => {
    g.write('ac128.yaml', ownType.replace('HX-40', 'AC128'))
    await json('type', 'add', 'ac128.yaml', ...book)
    expect(await json('type', 'show', 'AC128', ...book)).toMatchObject({ types: [{ polarity: 'NPN', material: 'Si' }] })
    expect(await json('type', 'show', 'AC128')).toMatchObject({ types: [{ polarity: 'PNP', material: 'Ge' }] })
  })
})
