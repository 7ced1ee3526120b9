import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { ApiFault, apiClient, type NewReading, partStatusWords, type Route, routes } from '#api'
import { partStatuses } from '#book'
import { partTypeExample } from '#core/device'
import { curveExampleCsv } from '#core/fit'
import { jobExampleYaml } from '#core/job'
import { stageExampleYaml } from '#core/stage'
import { testerExample } from '#core/tester'
import { pictures, serving } from './serving.ts'

const s = serving()
let counted = 0

/** A reading as the page would send it. */
const typed = (part: string, step: string, seen: string, more: Partial<NewReading> = {}): NewReading => ({
  clientId: `client-${++counted}`,
  part,
  step,
  seen,
  ...more,
})

const picture = (type: keyof typeof pictures): Blob => new Blob([pictures[type]], { type: `image/${type}` })

describe('an empty book', () => {
  test('says so, and takes the demo once', async () => {
    const before = await s.api().bookSummary()
    expect(before).toMatchObject({ file: 'bench.germane', isEmpty: true, isDemo: false, parts: 0, germane: '9.9.9' })
    expect(await s.api().drawer()).toEqual({ version: 0, count: 0, from: 0, blocks: [] })
    expect(await s.api().makeDemo()).toMatchObject({ lot: 'orrin-point', run: 1 })
    const after = await s.api().bookSummary()
    expect(after).toMatchObject({ isEmpty: false, isDemo: true, parts: 14, lots: [{ name: 'orrin-point', parts: 14 }] })
    await expect(s.api().makeDemo()).rejects.toThrow('The demo goes into an empty book')
  })
})

describe('testers', () => {
  test('are the samples and those of the book', async () => {
    const list = await s.api().testers()
    expect(list.map((t) => [t.id, t.from])).toContainEqual(['marlpit', 'sample'])
    expect(list.find((t) => t.id === 'larkfield')).toMatchObject({ from: 'book', version: 1 })
    const story = await s.api().tester('larkfield')
    expect(story.description).toContain('id: larkfield')
    expect(story.versions).toMatchObject([{ version: 1, runs: 1 }])
    await expect(s.api().tester('larkfeld')).rejects.toThrow('Near it: larkfield')
  })

  test('are read as one types: what is wrong comes with line and column, and nothing breaks', async () => {
    const bad = await s.api().checkTester(testerExample.replace(/fullScale: .*/, 'fullScale: much'))
    if (bad.ok) throw new Error('this is no good description')
    expect(bad.faults[0]).toMatchObject({ code: 'bad-input', place: { line: expect.any(Number) } })
    expect(bad.faults[0]?.sentence).toContain('"much"')
    for (const text of ['', '{', '\t- a: [', 'a: &a [*a]', '\u0000', '[]', 'x'.repeat(100_000)])
      expect((await s.api().checkTester(text)).ok).toBe(false)
    expect(await s.api().checkTester(testerExample)).toMatchObject({ ok: true, tester: { id: 'bench-tester' } })
  })

  test('are kept in versions, and a version can be undone', async () => {
    expect(await s.api().saveTester(testerExample)).toMatchObject({ name: 'bench-tester', version: 1, isNew: true })
    const changed = testerExample.replace(/^name: .*$/m, 'name: The other one')
    const saved = await s.api().saveTester(changed)
    expect(saved).toMatchObject({ version: 2, isNew: true })
    expect((await s.api().tester('bench-tester', 1)).description).toBe(testerExample)
    await s.api().undo(saved.edit)
    expect((await s.api().tester('bench-tester')).description).toBe(testerExample)
    await expect(s.api().saveTester('id: x')).rejects.toBeInstanceOf(ApiFault)
  })

  test('say what they can and cannot measure of a type', async () => {
    const covered = await s.api().coverage('larkfield', '2N1305')
    expect(covered.can.map((one) => one.symbol)).toContain('h_FE')
    const bare = await s.api().coverage('tallow', '2N1305')
    expect(bare.gaps.length).toBeGreaterThan(0)
    expect(bare.gaps[0]?.why).toMatch(/\w/)
  })
})

describe('the upkeep of a tester', () => {
  test('keeps what was found of its parts, which counts in its health and can be undone', async () => {
    const before = await s.api().upkeep('marlpit')
    expect(before).toEqual({ found: [], standards: [], often: [] })
    const parts = [{ part: 'coil', value: 2000, u: 3 }]
    const { id, edit } = await s.api().keepFound('marlpit', { day: '2026-05-01', note: 'cold', parts })
    expect((await s.api().upkeep('marlpit')).found).toMatchObject([{ id, day: '2026-05-01', note: 'cold', parts }])
    // a sample comes into the book with it
    expect(await s.api().tester('marlpit')).toMatchObject({ from: 'book', version: 1 })
    const word = async () => (await s.api().health()).find((t) => t.tester === 'marlpit')?.word
    expect(await word()).toBe('as described')
    await s.api().keepFound('marlpit', { day: '2026-05-02', parts: [{ part: 'coil', value: 4000, u: 3 }] })
    expect(await word()).toBe('not trusted')
    await s.api().undo(edit)
    expect((await s.api().upkeep('marlpit')).found).toHaveLength(1)
    const [left] = (await s.api().upkeep('marlpit')).found
    await s.api().dropFound(left!.id)
    expect(await word()).toBe('as described')
    await expect(s.api().dropFound(left!.id)).rejects.toThrow('There is no record of a tester as found')
    await expect(s.api().keepFound('nobody', { day: '2026-05-01', parts })).rejects.toThrow('no tester called "nobody"')
    await expect(s.api().keepFound('marlpit', { day: 'May', parts })).rejects.toThrow('"May" is not a date')
  })

  test('names check standards once, with what was read of them', async () => {
    const { id } = await s.api().keepStandard('larkfield', { part: 'OP-4', symbol: 'h_FE', low: 50, high: 200 })
    const { standards } = await s.api().upkeep('larkfield')
    expect(standards).toMatchObject([{ part: 'OP-4', symbol: 'h_FE', low: 50, high: 200, unit: '1' }])
    expect(standards[0]?.groups).toHaveLength(1)
    expect(standards[0]?.groups[0]?.values.length).toBeGreaterThan(0)
    await expect(s.api().keepStandard('larkfield', { part: 'OP-4', symbol: 'h_FE' })).rejects.toThrow('already')
    await s.api().dropStandard(id)
    expect((await s.api().upkeep('larkfield')).standards).toEqual([])
  })

  test('pairs what was read on two testers', async () => {
    const paired = await s.api().paired('larkfield', 'marlpit', 'I_CEO')
    expect(paired).toMatchObject({ names: ['larkfield', 'marlpit'], unit: 'A', parts: [] })
    await expect(s.api().paired('larkfield', 'nobody', 'I_CEO')).rejects.toThrow('no tester called "nobody"')
  })
})

describe('part types', () => {
  test('come all at once, and again only where they changed', async () => {
    const list = await s.api().types()
    expect(list.types.length).toBeGreaterThan(300)
    const first = await s.ask('/api/types')
    const same = await s.ask('/api/types', { headers: { 'if-none-match': String(first.headers.etag) } })
    expect([same.status, same.bytes.length]).toEqual([304, 0])
    await s.api().saveType(partTypeExample)
    const other = await s.ask('/api/types', { headers: { 'if-none-match': String(first.headers.etag) } })
    expect(other.status).toBe(200)
    expect((await s.api().types()).own.map((t) => t.type)).toEqual(['GX-17', 'GX-80'])
    expect(other.headers['content-encoding']).toBeUndefined()
    const pressed = await s.ask('/api/types', { headers: { 'accept-encoding': 'gzip' } })
    expect(pressed.headers['content-encoding']).toBe('gzip')
    expect(pressed.bytes.length).toBeLessThan(60_000)
  })

  test('are shown with source, versions and what the number tells; the text can be edited and kept', async () => {
    const story = await s.api().type('ac128')
    expect(story).toMatchObject({ from: 'catalog', partType: { type: 'AC128' }, versions: [] })
    expect(story.source).toMatch(/\w/)
    expect(story.explained[0]?.name).toMatch(/\w/)
    const read = await s.api().checkType(story.text)
    if (!read.ok) throw new Error(JSON.stringify(read.faults))
    expect(read.types).toEqual([story.partType])
    const [saved] = await s.api().saveType(story.text.replace(/^use: .*$/m, 'use: my own note'))
    expect(saved).toMatchObject({ name: 'AC128', version: 1, isNew: true })
    expect(await s.api().type('AC128')).toMatchObject({ from: 'book', partType: { use: 'my own note' } })
    await s.api().undo(saved?.edit)
    expect(await s.api().type('AC128')).toMatchObject({ from: 'catalog', partType: story.partType })
  })

  test('have stand-ins with every margin and reason, from the drawer and the catalog', async () => {
    const found = await s.api().standIns('2N1303', { voltageV: 9, ambientC: 45 })
    expect(found).toMatchObject({ for: '2N1303', hottestC: 45, notAsked: [] })
    expect(found.asked[0]).toMatchObject({ what: 'voltage', value: 9, why: 'as you asked' })
    const types = found.taken.filter((c) => !c.isPart)
    const [other] = types.filter((c) => c.name === '2N1305')
    expect(other).toMatchObject({ isPart: false, inDrawer: expect.any(Number), leads: { work: 'none' } })
    expect(other?.checks.find((c) => c.what === 'frequency')).toMatchObject({ symbol: 'f_hfb', word: 'enough' })
    expect(found.taken.find((c) => c.isPart)).toMatchObject({ type: '2N1305', name: expect.stringMatching(/^OP-/) })
    expect(found.refused[0]).toMatchObject({ what: expect.any(String), says: expect.stringMatching(/needed/) })
    await expect(s.api().standIns('2N2646')).rejects.toThrow('is no bipolar transistor or diode')
    await expect(s.api().standIns('2N1303', { voltageV: -1 })).rejects.toThrow()
  })

  test('have stand-ins for a position, played in its stage', async () => {
    const found = await s.api().standInsAt({ position: stageExampleYaml })
    expect(found).toMatchObject({ for: 'OC71', own: { word: 'works' } })
    const silicon = found.taken.find((c) => c.name === 'BC557')
    expect(silicon?.play?.changes?.map((c) => c.ref)).toEqual(['R2'])
    expect(silicon?.checks.at(-1)).toMatchObject({ what: 'stage', word: 'care' })
    const bare = stageExampleYaml.replace(/^parts:[\s\S]*$/m, '')
    expect((await s.api().standInsAt({ position: bare, type: 'OC71' })).for).toBe('OC71')
    await expect(s.api().standInsAt({ position: bare })).rejects.toThrow('Nothing is said of what stood at Q1')
  }, 60_000)

  test('are marked by how well they can be had, and the mark stands beside the stand-in', async () => {
    const marked = await s.api().markType('2n1305', 'scarce')
    expect(marked).toMatchObject({ type: '2N1305', availability: 'scarce', edit: expect.any(Number) })
    expect(await s.api().markType('2n1305', 'scarce')).toEqual({ type: '2N1305', availability: 'scarce' })
    const { taken } = await s.api().standIns('2N1303', { voltageV: 9 })
    expect(taken.find((c) => c.name === '2N1305')?.availability).toBe('scarce')
    expect((await s.api().standIns('2N1305')).availability).toBe('scarce')
    expect((await s.api().undo(marked.edit)).undone.say).toBe('2N1305 was marked as scarce.')
    expect((await s.api().standIns('2N1305')).availability).toBeUndefined()
    await s.api().markType('2N1305', 'gone')
    expect(await s.api().markType('2N1305')).toMatchObject({ type: '2N1305' })
    expect((await s.api().standIns('2N1305')).availability).toBeUndefined()
  })

  test('that are wrong come with all that is wrong', async () => {
    const read = await s.api().checkType('type: X1\nfamily: valve\npolarity: up\n')
    if (read.ok) throw new Error('this is no good record')
    expect(read.faults.map((f) => f.place?.line)).toEqual([2, 3])
  })
})

describe('a run', () => {
  let run = 0

  test('is planned and begun with its sheet', async () => {
    const wishes = { ambientC: 20, ambientU: 0.5 }
    const sheet = await s.api().plan({ tester: 'larkfield', type: '2N1305', wishes })
    expect(sheet.steps.some((step) => step.kind === 'read' && step.reads === 'h_FE')).toBe(true)
    expect(await s.api().plan({ tester: 'larkfield', type: 'unknown', wishes: { polarity: 'PNP' } })).toMatchObject({
      wishes: { polarity: 'PNP' },
    })
    const begun = await s.api().startRun({ tester: 'larkfield', type: '2N1305', wishes, note: 'second lot' })
    expect(begun).toMatchObject({ run: { state: 'open', type: '2N1305', note: 'second lot', readings: 0 }, sheet })
    run = begun.run.id
    expect((await s.api().runs({ state: 'open' })).map((r) => r.id)).toEqual([run])
    expect((await s.api().runs({ limit: 1 })).map((r) => r.id)).toEqual([run])
    const wrong = s.api().plan({ tester: 'larkfield', type: '2N1305', wishes: { ambientC: 500 } })
    await expect(wrong).rejects.toThrow('ambientC')
  })

  test.each(['.', '..'])('refuses the tag "%s", which no address could hold', async (tag) => {
    const { sheet } = await s.api().run(run)
    const step = sheet!.steps.find((one) => one.kind === 'read' && one.reads === 'I_CEO')!
    await expect(s.api().addReading(run, typed(tag, step.id, '14.2 div'))).rejects.toThrow('Take one such as Q17.')
  })

  test('takes what was typed for its steps, and says how it was understood', async () => {
    const { sheet } = await s.api().run(run)
    const step = sheet!.steps.find((one) => one.kind === 'read' && one.reads === 'I_CEO')!
    const taken = await s.api().addReading(run, typed('R-1', step.id, '14.2 div'))
    expect(taken.echo).toMatch(/14\.2 div of \d+ on /)
    expect(taken.reading.reading).toMatchObject({ part: 'R-1', type: '2N1305', reads: 'I_CEO', ambientC: 20 })
    const elsewhere = typed('R-2', step.id, '8 div', { range: '1 mA', ambientC: 22 })
    expect((await s.api().addReading(run, elsewhere)).reading.reading).toMatchObject({ range: '1 mA', ambientC: 22 })
    const free = { ...typed('R-2', '', '118'), reads: 'h_FE', range: 'middle', point: 2 }
    const { step: _, ...bare } = free
    expect((await s.api().addReading(run, bare)).reading.reading).toMatchObject({ reads: 'h_FE', point: 2 })
    await expect(s.api().addReading(run, typed('R-1', step.id, '900 div'))).rejects.toThrow('900 div')
    await expect(s.api().addReading(run, typed('R-1', 'no-step', '1 div'))).rejects.toThrow('no-step')
    await expect(s.api().addReading(99, typed('R-1', step.id, '1 div'))).rejects.toThrow('run in the book')
    expect((await s.api().run(run, 'R-2')).readings).toHaveLength(2)
  })

  test('takes a reading once, however often it is sent', async () => {
    const { sheet, readings } = await s.api().run(run)
    const step = sheet!.steps.find((one) => one.kind === 'read' && one.reads === 'short')!
    const sent = typed('R-1', step.id, 'clear')
    const first = await s.api().addReading(run, sent)
    expect(await s.api().addReading(run, sent)).toEqual({ ...first, isRepeat: true })
    expect((await s.api().run(run)).readings).toHaveLength(readings.length + 1)
  })

  test('is computed so far, corrected, undone, and ended', async () => {
    const { sheet } = await s.api().run(run)
    const gain = sheet!.steps.find((one) => one.kind === 'read' && one.reads === 'h_FE')!
    const current = sheet!.steps.find((one) => one.kind === 'read' && one.reads === 'I_C')!
    await s.api().addReading(run, typed('R-1', current.id, '50 div'))
    const { reading } = await s.api().addReading(run, typed('R-1', gain.id, '90'))
    const soFar = await s.api().settleRun(run, 'R-1')
    expect(soFar).toMatchObject({ run: { state: 'open' }, outcomes: [{ part: 'R-1', word: expect.any(String) }] })
    const ended = await s.api().finishRun(run)
    expect(ended.run.state).toBe('finished')
    expect(ended.outcomes.map((one) => one.part)).toEqual(['R-1', 'R-2'])
    await expect(s.api().addReading(run, typed('R-9', gain.id, '90'))).rejects.toThrow(`Run ${run} is finished`)
    const gainOf = async (): Promise<number | null | undefined> => {
      const [block] = (await s.api().drawer()).blocks
      return block?.symbols.h_FE?.value[block.tags.indexOf('R-1')]
    }
    expect(await gainOf()).toBe(90)
    const correction = { clientId: 'correction-1', seen: '104', note: 'misread' }
    const corrected = await s.api().correctReading(run, reading.id, correction)
    expect(corrected).toMatchObject({ isRepeat: false, reading: { replaces: reading.id } })
    expect(await s.api().correctReading(run, reading.id, correction)).toMatchObject({ isRepeat: true })
    expect(await gainOf()).toBe(104)
    await s.api().undo(corrected.edit)
    expect(await gainOf()).toBe(90)
  })
})

describe('parts', () => {
  test('have their story: readings, what they came to with its working, edits, neighbours', async () => {
    const story = await s.api().part('OP-4')
    expect(story).toMatchObject({ part: { type: '2N1305' }, word: 'does not conform', before: 'OP-3', after: 'OP-5' })
    expect(story.partType?.type).toBe('2N1305')
    const [run] = story.runs
    expect(run?.readings.map((r) => r.reading.reads)).toContain('I_CEO')
    const gain = run?.outcome?.result.parameters.find((p) => p.symbol === 'h_FE0')
    expect(gain?.quantity.origin).toMatchObject({ kind: 'derived', inputs: expect.anything() })
    await expect(s.api().part('OP-44')).rejects.toThrow('Near it: OP-4')
  })

  test('have the statuses that the book knows', () => expect(partStatusWords).toEqual(partStatuses))

  test('are changed together as one edit, and changed back', async () => {
    const { edit, parts } = await s.api().changeParts(['OP-6', 'OP-7'], { place: '', status: 'good', usedIn: 'tuner' })
    expect(parts.map((p) => [p.tag, p.place, p.status, p.usedIn])).toEqual([
      ['OP-6', undefined, 'good', 'tuner'],
      ['OP-7', undefined, 'good', 'tuner'],
    ])
    expect((await s.api().edits(1)).map((e) => e.id)).toEqual([edit])
    const { undone, edit: by } = await s.api().undo()
    expect([undone.id, by.undoes]).toEqual([edit, edit])
    expect((await s.api().part('OP-7')).part).toMatchObject({ place: 'drawer 3', status: 'kept' })
    expect(await s.api().changeParts(['OP-6'], {})).toMatchObject({ parts: [{ tag: 'OP-6' }] })
  })

  test('have curves, kept once each', async () => {
    const curve = { text: curveExampleCsv.diode, file: 'D.csv', temperatureC: 23, takenAt: '2026-04-30', note: 'n' }
    const kept = await s.api().keepCurve('OP-4', curve)
    expect(kept).toMatchObject({ id: 1, file: 'D.csv', temperatureC: 23, curve: { name: 'OP-4', kind: 'diode' } })
    expect(await s.api().curves('OP-4')).toEqual([kept])
    await expect(s.api().keepCurve('OP-4', curve)).rejects.toThrow('D.csv was kept before for OP-4: curve 1')
    const again = await s.api().keepCurve('OP-4', { ...curve, again: true, kind: 'diode', columns: { V_F: 'V_F' } })
    expect((await s.api().curves('OP-4')).map((c) => c.id)).toEqual([1, again.id])
    await expect(s.api().keepCurve('OP-4', { text: 'a,b\n1,2\n', file: 'x.csv' })).rejects.toThrow('x.csv: "a, b"')
    await expect(s.api().curves('nobody')).rejects.toThrow('There is no part in the book called "nobody".')
  })

  test('have photos, which can be taken away and come back', async () => {
    const { photo } = await s.api().addPhoto('OP-4', picture('png'), '../<img onerror=alert(1)>.png')
    expect(photo).toMatchObject({ type: 'image/png', bytes: pictures.png.length, url: `/api/photos/${photo.id}` })
    expect(await s.api().photos('OP-4')).toEqual([photo])
    const shown = await s.ask(photo.url)
    expect([...shown.bytes]).toEqual([...pictures.png])
    await s.api().removePhoto(photo.id)
    expect((await s.ask(photo.url)).status).toBe(404)
    await s.api().undo()
    expect((await s.ask(photo.url)).status).toBe(200)
    expect(s.api().photoUrl(photo.id)).toBe(`${s.server().url}${photo.url}`)
  })
})

describe('jobs', () => {
  test('are listed, and shown with what their parts do in their positions', async () => {
    const [job] = await s.api().jobs()
    expect(job).toMatchObject({ id: 1, name: 'Orrin Point tide recorder', positions: 7, progress: { done: 3 } })
    const { positions, cautions } = await s.api().job(1)
    expect(cautions.length).toBeGreaterThan(3)
    const of = (ref: string) => positions.find((p) => p.ref === ref)
    expect(of('Q4')?.parts).toMatchObject([{ tag: 'OP-4', as: 'found', verdict: { word: 'works' } }])
    expect(of('Q3')?.parts).toMatchObject([{ tag: 'OP-3', verdict: { word: 'will not' } }])
    expect(of('Q5')?.parts).toMatchObject([
      { tag: 'OP-5', state: 'short', why: 'it is shorted' },
      { tag: 'OP-7', as: 'reserved', verdict: { word: 'works' } },
    ])
    expect(await s.api().jobsOfPart('OP-7')).toEqual([
      { job: 1, name: 'Orrin Point tide recorder', ref: 'Q5', as: 'reserved' },
    ])
    await expect(s.api().job(99)).rejects.toThrow('There is no job in the book called "99"')
  })

  test('are added by name or from a file, changed and taken away; each is one edit', async () => {
    const made = await s.api().addJob({ name: 'Bench radio' })
    await expect(s.api().addJob({ name: 'Bench radio' })).rejects.toThrow('is the name of a job already')
    await s.api().changeJob(made.job, { state: 'waiting', power: 'mains', note: 'hums' })
    expect((await s.api().job(made.job)).job).toMatchObject({ state: 'waiting', power: 'mains', note: 'hums' })
    await s.api().changeJob(made.job, { power: '' })
    expect((await s.api().job(made.job)).job.power).toBeUndefined()
    const removed = await s.api().removeJob(made.job)
    await expect(s.api().job(made.job)).rejects.toThrow('no job in the book')
    await s.api().undo(removed.edit)
    await s.api().removeJob(made.job)
    expect((await s.api().addJobText(jobExampleYaml, 'intercom.yaml')).name).toBe('Hut intercom')
    await expect(s.api().addJobText('job: X\npositions: 3\n', 'x.yaml')).rejects.toThrow('x.yaml, line 2')
    expect((await s.api().search('intercom')).hits).toContainEqual(
      expect.objectContaining({ kind: 'job', name: 'Hut intercom' }),
    )
  })

  test('have positions that are added, moved on, fitted and taken out', async () => {
    const job = (await s.api().jobs()).find((one) => one.name === 'Hut intercom')!.id
    const of = async (ref: string) => (await s.api().job(job)).positions.find((p) => p.ref === ref)
    await s.api().addPosition(job, { ref: 'TR/5', type: 'OC71' })
    await s.api().changePosition(job, 'TR/5', { done: true, found: 'fine' })
    expect(await of('TR/5')).toMatchObject({ column: 'done', decision: 'keep' })
    await expect(s.api().changePosition(job, 'TR1', { circuit: 'stage: dividr\n' })).rejects.toThrow('"dividr"')
    await s.api().reserve(job, 'OP-6', 'TR2')
    expect((await s.api().drawer()).blocks[0]?.reserved.words).toContain('Hut intercom, TR2')
    await s.api().changePosition(job, 'TR2', { fittedPart: 'OP-6' })
    expect((await s.api().part('OP-6')).part).toMatchObject({ status: 'used', usedIn: 'Hut intercom, TR2' })
    await s.api().undo()
    await s.api().release('OP-6')
    await expect(s.api().release('OP-6')).rejects.toThrow('OP-6 is not reserved')
    await s.api().removePosition(job, 'TR/5')
    expect(await of('TR/5')).toBeUndefined()
  })

  test('have photos and a report', async () => {
    const { photo } = await s.api().addJobPhoto(1, picture('jpeg'), 'board.jpg')
    expect(photo).toMatchObject({ job: 1, name: 'board.jpg' })
    expect((await s.api().job(1)).photos).toEqual([photo])
    const report = await s.ask(`/api/jobs/1/report`)
    expect(report.status).toBe(200)
    const html = new TextDecoder().decode(report.bytes)
    expect(html).toContain('Orrin Point tide recorder')
    expect(html).toContain('data:image/jpeg;base64,')
    expect(s.api().jobReportUrl(1, true)).toBe(`${s.server().url}/api/jobs/1/report?save=1`)
    await s.api().removePhoto(photo.id)
    expect((await s.api().job(1)).photos).toEqual([])
  })
})

test.each(['A/1', 'Q 7', 'é%41', '50%', '#3', '?', '<b>', '"; DROP TABLE part', '\u202eQ1', '日本'])(
  'a part tagged %j has its page, photos and search like any other',
  async (tag) => {
    const { run } = await s.api().startRun({ tester: 'larkfield', type: 'BC107' })
    await s
      .api()
      .addReading(run.id, { clientId: `odd-tag-${tag}`, part: tag, reads: 'h_FE', range: 'high', seen: '240' })
    expect((await s.api().settleRun(run.id, tag)).outcomes.map((one) => one.part)).toEqual([tag])
    expect((await s.api().part(tag)).part.tag).toBe(tag)
    expect((await s.api().run(run.id, tag)).readings).toHaveLength(1)
    const { photo } = await s.api().addPhoto(tag, picture('jpeg'), `${tag}.jpg`)
    expect(photo).toMatchObject({ part: tag, name: `${tag}.jpg` })
    expect((await s.api().search(tag)).hits).toContainEqual(expect.objectContaining({ kind: 'part', name: tag }))
    expect((await s.ask(`/api/report?part=${encodeURIComponent(tag)}`)).status).toBe(200)
    await s.api().finishRun(run.id, 'stopped')
  },
)

test('parts for a position come as numbers, some at a time, with why others do not', async () => {
  const all = await s.api().stageParts({ near: 1e-3 })
  expect(all.parts.length).toBeGreaterThan(3)
  expect(all.parts.length + all.leftOut.length).toBe(all.of)
  const names = (found: typeof all): readonly string[] => [...found.parts, ...found.leftOut].map((p) => p.name)
  const pages = [await s.api().stageParts({ near: 1e-3, count: 5 })]
  for (let from = 5; from < all.of; from += 5) pages.push(await s.api().stageParts({ near: 1e-3, count: 5, from }))
  expect(pages.flatMap(names).toSorted()).toEqual([...names(all)].toSorted())
  const one = await s.api().stageParts({ tag: 'OP-4' })
  expect(one).toMatchObject({ of: 1, parts: [{ name: 'OP-4', kind: 'bipolar', material: 'Ge', polarity: 'PNP' }] })
  const { edit } = await s.api().changeParts(['OP-4'], { status: 'used' })
  expect((await s.api().stageParts({ near: 1e-3 })).leftOut).toContainEqual({ name: 'OP-4', why: 'it is used' })
  expect((await s.api().stageParts({ tag: 'OP-4' })).parts).toHaveLength(1)
  await s.api().undo(edit)
  expect(await s.api().stageParts({ tag: 'nobody' })).toEqual({ parts: [], leftOut: [], of: 0 })
  await expect(s.api().stageParts({ count: 0 })).rejects.toThrow('count')
})

test('parts to be matched come with their values and budgets', async () => {
  const offers = await s.api().matchOffers()
  expect(offers.symbols).toContainEqual({ symbol: 'h_FE', unit: '1' })
  expect(offers.types).toContain('2N1305')
  const { parts, notes } = await s.api().matchParts({ by: 'h_FE,ln(I_CEO)', labels: 'type', type: '2N1305' })
  expect(notes).toEqual([])
  const [first] = parts
  expect(first).toMatchObject({ tag: 'OP-1', labels: { type: '2N1305' } })
  expect(first!.quantities!.h_FE!.budget.length).toBeGreaterThan(2)
  expect(first!.values['ln(I_CEO)']).toBeLessThan(0)
  const few = { by: 'h_FE', type: '2N1305' } as const
  const { parts: all } = await s.api().matchParts({ ...few, most: 1000 })
  expect(all.length).toBeGreaterThan(3)
  const none = await s.api().matchParts({ ...few, most: 3 })
  expect(none).toEqual({ parts: [], notes: [], tooMany: expect.any(Number) })
  expect(none.tooMany).toBeGreaterThanOrEqual(all.length)
  await expect(s.api().matchParts({ by: 'h_FE@x' })).rejects.toThrow(/no current, no voltage/)
})

test('the search finds parts, types, testers, lots, jobs and notes', async () => {
  const kinds = async (q: string): Promise<string[]> => [...new Set((await s.api().search(q)).hits.map((h) => h.kind))]
  expect(await kinds('2N13')).toEqual(['part', 'type', 'job'])
  expect(await kinds('larkfield')).toEqual(['tester'])
  expect(await kinds('orrin')).toEqual(['part', 'lot', 'job'])
  expect((await s.api().search('creeps')).hits).toEqual([
    { kind: 'reading', name: 'OP-4', say: 'needle creeps up', part: 'OP-4', run: 1 },
  ])
  expect(await s.api().search('')).toEqual({ query: '', hits: [], more: false })
  const few = await s.api().search('OP', 3)
  expect([few.hits.length, few.more]).toEqual([3, true])
})

test('a report of parts or of a lot is a page of its own', async () => {
  const page = await s.ask(
    s
      .api()
      .reportUrl({ tags: ['OP-4', 'OP-6'], title: 'Two of them' })
      .replace(s.server().url, ''),
  )
  expect(page.status).toBe(200)
  expect(page.text).toContain('Two of them')
  expect(page.text).toContain('OP-6')
  expect(page.text).not.toContain('OP-7')
  const saved = await s.ask('/api/report?lot=orrin-point&save=1')
  expect(saved.headers['content-disposition']).toBe('attachment; filename="germane-report.html"')
  expect((await s.ask('/api/report?lot=none')).status).toBe(404)
})

test('pairing is not asked for on this computer', async () => {
  expect(await s.api().pairing()).toEqual({ isNeeded: false, isPaired: true })
  expect(await s.api().pair('1')).toEqual({ isNeeded: false, isPaired: true })
})

test('long work is listed, followed and cancelled', async () => {
  const begun = await s.api().startWork({ kind: 'report', lot: 'orrin-point' })
  expect(await s.api().work(begun.id)).toMatchObject({ id: begun.id, kind: 'report' })
  await expect.poll(async () => (await s.api().work(begun.id)).state, { timeout: 30_000 }).toBe('done')
  expect((await s.api().works()).map((w) => w.id)).toEqual([begun.id])
  expect(await s.api().cancelWork(begun.id)).toMatchObject({ state: 'done' })
})

test('the drawer says what changed', async () => {
  const { version } = await s.api().drawer()
  await s.api().changeParts(['OP-1'], { place: 'on the bench' })
  const changes = await s.api().drawerChanges(version)
  expect([changes.rows, changes.block.tags, changes.block.places.words]).toEqual([[0], ['OP-1'], ['on the bench']])
})

test('the drawer says how many parts it holds of each type', async () => {
  const { types } = await s.api().heldTypes()
  const [block] = (await s.api().drawer()).blocks
  const known = block!.types.at.filter((k) => k >= 0 && block!.types.words[k] === types[0]!.type)
  expect(types.length).toBeGreaterThan(0)
  expect(types[0]!.parts).toBe(known.length)
})

describe('the description', () => {
  interface Description {
    readonly openapi: string
    readonly paths: Record<string, Record<string, { operationId: string; responses: Record<string, unknown> }>>
    readonly components: { readonly schemas: Record<string, unknown> }
  }
  const described = async (): Promise<Description> => JSON.parse((await s.ask('/api/openapi.json')).text) as Description

  test('has every route and no other, each with its refusals', async () => {
    const { openapi, paths } = await described()
    expect(openapi).toBe('3.1.0')
    const listed = Object.entries(paths).flatMap(([path, methods]) =>
      Object.entries(methods).map(([method, { operationId }]) => `${operationId} ${method} ${path}`),
    )
    const all = Object.entries(routes).map(([name, r]: [string, Route]) => `${name} ${r.method} ${r.path}`)
    expect(listed.sort()).toEqual(all.sort())
    for (const methods of Object.values(paths))
      for (const { responses } of Object.values(methods))
        expect(Object.keys(responses)).toEqual(
          expect.arrayContaining(['200', '400', '403', '404', '415', '421', '503']),
        )
  })

  test('points only to what it has', async () => {
    const text = JSON.stringify(await described())
    const { components } = await described()
    const named = [...text.matchAll(/"#\/components\/schemas\/(\w+)"/g)].map(([, name]) => name!)
    expect(named.length).toBeGreaterThan(50)
    expect(named.filter((name) => !(name in components.schemas))).toEqual([])
  })

  test('every route with a JSON answer was answered here, in its shape', () => {
    const withAnswer = Object.entries(routes).filter(([, r]: [string, Route]) => r.answer !== undefined)
    expect(withAnswer.map(([name]) => name).filter((name) => !s.answered.has(name))).toEqual([])
  })

  test('the reference page lists every route', () => {
    const page = readFileSync(new URL('../../docs/reference/server.md', import.meta.url), 'utf8')
    const listed = [...page.matchAll(/^\| `(GET|POST|PATCH|DELETE) (\/api\/[^`]*)` \|/gm)].map(
      ([, m, p]) => `${m} ${p}`,
    )
    const all = Object.values(routes).map((r: Route) => `${r.method.toUpperCase()} ${r.path}`)
    expect(listed.sort()).toEqual([...all, 'GET /api/openapi.json'].sort())
  })
})

test('every function of the client asks for a route there is', async () => {
  const asked: string[] = []
  const seen = apiClient('http://bench.test', {
    fetch: async (url, init) => {
      const { pathname } = new URL(String(url))
      asked.push(`${init?.method} ${pathname}`)
      return new Response(
        '{"testers":[],"runs":[],"saved":[],"photos":[],"edits":[],"works":[],"jobs":[],"places":[]}',
        {
          headers: { 'content-type': 'application/json' },
        },
      )
    },
  })
  const { events: _, photoUrl: __, reportUrl: ___, jobReportUrl: ____, ...functions } = seen
  for (const call of Object.values(functions) as ((...given: unknown[]) => Promise<unknown>)[])
    await call('1', 'x', 'y')
  const known = Object.values(routes).map((r: Route) => [r.method.toUpperCase(), r.path] as const)
  const missing = asked.filter((one) => {
    const [method, path] = one.split(' ')
    return !known.some(([m, p]) => m === method && new RegExp(`^${p.replaceAll(/\{\w+\}/g, '[^/]+')}$`).test(path!))
  })
  expect(missing).toEqual([])
  expect(asked.length).toBe(Object.keys(functions).length)
})
