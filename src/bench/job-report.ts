import { photoContent } from '#book'
import { type Job, partOfPosition } from '#core/job'
import { type StageAnswer, stageAnswer } from '#core/stage'
import { type JobReport, jobSheet, type ReportedPhoto, type Sheet } from '#report/sheet'
import { type Bench, bookOf } from './bench.ts'
import { type JobSeen, type PositionSeen, seeJob } from './see-job.ts'

/** A job with its report as a sheet, for terminal and file. */
export interface JobReported {
  readonly seen: JobSeen
  readonly sheet: Sheet
}

/** The report of a job: positions, decisions, verdicts with their working, cautions, photos. */
export async function jobReport(bench: Bench, job: Job): Promise<JobReported> {
  const seen = await seeJob(bench, job)
  const photos: ReportedPhoto[] = []
  for (const { id, name } of seen.photos) {
    const { type, content } = await photoContent(bookOf(bench), id)
    photos.push({ name, type, base64: Buffer.from(content).toString('base64') })
  }
  const report: JobReport = {
    ...seen,
    positions: seen.positions.map((one) => ({ ...one, ...answerOf(one) })),
    photos,
    printedAt: bench.now(),
  }
  return { seen, sheet: jobSheet(report) }
}

/** What the part that counts does in its position, worked out whole; of a position without one, what the wanted type does. */
function answerOf({ position, circuit, own, wanted, parts }: PositionSeen): { readonly answer?: StageAnswer } {
  if (circuit === undefined || own === undefined) return {}
  const chosen = partOfPosition(position)?.tag
  const numbers = parts.find((one) => one.tag === chosen)?.numbers
  if (numbers === undefined && (chosen !== undefined || wanted === undefined)) return {}
  const filled = numbers === undefined ? own : { ...own, [circuit.place]: numbers }
  return { answer: stageAnswer(circuit, filled, { count: 0 }) }
}
