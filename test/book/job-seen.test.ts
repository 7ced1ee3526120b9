import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import {
  addJobText,
  addPositionTo,
  type Bench,
  changeJob,
  changePosition,
  jobDocument,
  jobNamed,
  jobReport,
  makeDemo,
  onBench,
  positionFromText,
  reserveFor,
  seeJob,
  seeStage,
  sheetFile,
  unknownTypes,
} from '#bench'
import { readJob } from '#core/job'
import { outsideReach, pageFaults } from '#report/testing'
import { ownFolder } from './folder.ts'

const inFolder = ownFolder()
const now = (): string => '2026-05-02T09:00:00Z'
let made = 0

async function onDemo<T>(use: (bench: Bench) => Promise<T>): Promise<T> {
  const bookFile = inFolder(`demo-${made++}.germane`)
  await makeDemo(bookFile)
  return onBench({ bookFile, now }, use)
}

describe('the job of the demo', () => {
  test('has seven germanium positions, a leaky part that stays, one that must go and one reserved', () =>
    onDemo(async (bench) => {
      const seen = await seeJob(bench, await jobNamed(bench, 'Orrin Point tide recorder'))
      expect(seen.positions.map((p) => [p.position.ref, p.position.type, p.column])).toEqual([
        ['Q1', '2N1305', 'done'],
        ['Q2', '2N1305', 'done'],
        ['Q3', '2N1305', 'to look at'],
        ['Q4', '2N1305', 'keep'],
        ['Q5', '2N1305', 'replace'],
        ['Q6', '2N1305', 'done'],
        ['Q7', '2N1305', 'to look at'],
      ])
      const said = seen.positions.flatMap((p) => p.parts.map((one) => [one.tag, one.as, one.verdict?.word ?? one.why]))
      expect(said).toEqual([
        ['OP-1', 'found', 'works'],
        ['OP-2', 'found', 'works'],
        ['OP-3', 'found', 'will not'],
        ['OP-4', 'found', 'works'],
        ['OP-5', 'found', 'it is shorted'],
        ['OP-7', 'reserved', 'works'],
      ])
      // OP-4 does not conform as a part: it leaks; in this position it does well
      expect(seen.positions[3]?.parts[0]?.word).toBe('does not conform')
      expect(unknownTypes(bench, seen.job)).toEqual([])
      expect(await jobNamed(bench, '1')).toEqual(seen.job)
    }))

  test('says of each part what germane stage says of it', () =>
    onDemo(async (bench) => {
      const seen = await seeJob(bench, await jobNamed(bench, 1))
      const tried = seen.positions.flatMap((p) => p.parts.map((part) => ({ circuit: p.position.circuit, part })))
      const judged = tried.filter(({ part }) => part.verdict !== undefined)
      expect(judged).toHaveLength(5)
      for (const { circuit, part } of judged) {
        const { answer, published } = await seeStage(bench, positionFromText(circuit!, 'x'), {
          part: part.tag,
          count: 0,
        })
        // the whole answer counts strain as well, and may be worse for it
        const { word, why } = part.verdict!
        if (answer.verdict.word === word) expect(answer.verdict.why, part.tag).toBe(why)
        else expect([word, answer.verdict.word], part.tag).toEqual(['works', 'works but drifts'])
        expect(seen.positions.find((p) => p.parts.includes(part))?.wanted).toEqual(published)
      }
    }))

  test('has a report that needs nothing else, with drawings and their working', () =>
    onDemo(async (bench) => {
      const { sheet } = await jobReport(bench, await jobNamed(bench, 1))
      const html = String(await sheetFile(sheet, 'job.html'))
      expect(outsideReach(html)).toEqual([])
      expect(pageFaults(html)).toEqual([])
      const svg = String(await sheetFile(sheet, 'job.svg'))
      expect(svg).toMatch(/^<svg /)
      expect(svg).toContain('float amplifier, first stage')
      const png = (await sheetFile(sheet, 'job.png')) as Uint8Array
      expect([...png.slice(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47])
      expect(sheet.blocks.filter((b) => b.kind === 'drawing').map((b) => b.caption)).toEqual([
        'Q1: four-resistor divider, with OP-1, in air of 25 °C.',
        'Q2: collector feedback, with OP-2, in air of 25 °C.',
        'Q3: fixed bias, with OP-3, in air of 25 °C.',
        'Q4: four-resistor divider, with OP-4, in air of 25 °C.',
        'Q5: switch, or one half of a multivibrator, with OP-7, in air of 25 °C.',
        'Q6: emitter follower, with 2N1305, in air of 25 °C.',
      ])
      expect(sheet.lead).toEqual([
        { say: '4 of 7 positions are not done yet.' },
        { outcome: 'does not conform', say: 'Will not work as it is: Q3.' },
      ])
      const text = html.replaceAll(/<[^>]+>/g, '')
      for (const words of [
        'Take care',
        'toxic ceramic RF parts',
        'local codes or licensed practice',
        'OP-5 (2N1305), found: not tried, since it is shorted.',
      ])
        expect(text).toContain(words)
      const row = sheet.blocks.find((b) => b.kind === 'table' && b.caption === 'Positions')
      expect(row?.kind === 'table' && row.rows[4]).toEqual([
        'Q5',
        '2N1305',
        'pen relay switch',
        'OP-5, shorted, it took the fuse with it',
        'replace',
        'OP-7 reserved',
        'works',
      ])
    }))
})

describe('a job', () => {
  test('is tried with what is fitted; a circuit that cannot be used, or a part never read, says so', () =>
    onDemo(async (bench) => {
      const { job } = await addJobText(
        bench,
        'job: A\npositions:\n  T1: { type: 2N1305 }\n  T2: { type: XX99 }\n',
        'a.yaml',
      )
      expect(unknownTypes(bench, job)).toEqual(['XX99'])
      const circuit =
        'stage: fixed-bias\npolarity: PNP\nsupply: 12 V\nvalues: { RB: 680 kohm, RC: 4.7 kohm }\nparts: { Q1: XX99 }\n'
      await changePosition(bench, { job: job.id, ref: 'T1' }, { circuit, fittedPart: 'OP-6' })
      await expect(changePosition(bench, { job: job.id, ref: 'T1' }, { circuit: 'stage: x' })).rejects.toThrow(
        'circuit, line 1',
      )
      const first = await seeJob(bench, await jobNamed(bench, job.id))
      expect(first.positions[0]).toMatchObject({ column: 'replace', fault: expect.stringContaining('"XX99"') })
      expect(first.positions[0]?.parts[0]?.why).toBe('the circuit of its position cannot be used')
      await changePosition(bench, { job: job.id, ref: 'T1' }, { circuit: circuit.replace('XX99', '2N1305') })
      const second = await seeJob(bench, await jobNamed(bench, job.id))
      expect(second.positions[0]?.parts[0]).toMatchObject({ tag: 'OP-6', as: 'fitted', verdict: { word: 'works' } })
      expect(second.cautions[0]?.hazard).toBe('mains-operated equipment')
      await addPositionTo(bench, job.id, { ref: 'T3', foundPart: 'OP-1', note: '' })
      await reserveFor(bench, { job: job.id, tag: 'OP-2' })
      await changeJob(bench, job.id, { power: 'battery', equipment: 'b' })
      await changeJob(bench, job.id, { equipment: '' as never })
      const document = jobDocument(await seeJob(bench, await jobNamed(bench, job.id)))
      expect(document.job).toEqual({ ...document.job, power: 'battery', reserved: ['OP-2'] })
      expect('equipment' in document.job).toBe(false)
      expect(document.positions[2]).toMatchObject({
        ref: 'T3',
        parts: [{ why: 'the circuit of its position is not known' }],
      })
    }))
})

test('the example of the reference page is a job that can be read', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/reference/jobs.md'), 'utf8')
  const example = /```yaml\n([\s\S]*?)```/.exec(page)![1]!
  expect(readJob(example, 'jobs.md').positions.map((p) => p.ref)).toEqual(['TR1', 'TR2'])
})
