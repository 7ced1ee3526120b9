import type { JobSeen, PartSeen, PositionSeen } from '#bench'
import { boardColumns, type Job, progressOf } from '#core/job'
import { block } from './say.ts'
import { stageWordText } from './stage-lines.ts'
import { tableLines, wrapped } from './table.ts'

/** Jobs as a list, with how far each is. */
export const jobListLines = (jobs: readonly Job[]): readonly string[] => [
  ...tableLines(
    ['>job', 'name', 'state', 'begun', ...boardColumns.map((column) => `>${column}`)],
    jobs.map((job) => {
      const progress = progressOf(job.positions)
      const counts = boardColumns.map((column) => String(progress[column]))
      return [String(job.id), job.name, job.state, job.begunOn ?? '', ...counts]
    }),
  ),
  '',
  `${jobs.length} ${jobs.length === 1 ? 'job' : 'jobs'}.`,
]

/** A job, its board, and what its parts do in their positions. */
export function jobLines({ job, positions, photos, cautions }: JobSeen): readonly string[] {
  return [
    [job.name, job.state, job.power, job.begunOn && `begun ${job.begunOn}`, job.finishedOn && `done ${job.finishedOn}`]
      .filter(Boolean)
      .join(', '),
    ...(job.equipment === undefined ? [] : wrapped(job.equipment)),
    ...(job.note === undefined ? [] : job.note.split('\n').flatMap((line) => wrapped(line))),
    ...(job.reserved.length === 0 ? [] : [`Reserved for the job: ${job.reserved.join(', ')}.`]),
    ...(photos.length === 0 ? [] : [`Photos: ${photos.map((p) => p.name).join(', ')}.`]),
    ...boardColumns.flatMap((column) =>
      boardBlock(
        column,
        positions.filter((p) => p.column === column),
      ),
    ),
    ...block(
      'Take care',
      cautions.flatMap((c) => wrapped(`${c.hazard}: ${c.caution}`, '- ')),
    ),
  ]
}

const boardBlock = (column: string, positions: readonly PositionSeen[]): readonly string[] =>
  block(`${column.charAt(0).toUpperCase()}${column.slice(1)}:`, positions.flatMap(positionLines))

function positionLines({ position, fault, wanted, parts }: PositionSeen): readonly string[] {
  const { ref, type, role, found, fitted, note } = position
  const inner = (text: string): readonly string[] => wrapped(text, '    ')
  return [
    ...wrapped([ref, type, role].filter((x) => x !== undefined).join(', '), '  '),
    ...(found === undefined ? [] : inner(`found: ${found}`)),
    ...(fitted === undefined ? [] : inner(`fitted: ${fitted}`)),
    ...parts.flatMap((part) => inner(partText(part))),
    ...(parts.length === 0 && wanted !== undefined
      ? inner(`${wanted.part} as published: ${stageWordText(wanted.verdict.word)}. ${wanted.verdict.why}`)
      : []),
    ...(fault === undefined ? [] : fault.split('\n').flatMap(inner)),
    ...(note === undefined ? [] : inner(note)),
  ]
}

const partText = ({ tag, as, verdict, why }: PartSeen): string =>
  verdict === undefined
    ? `${as} ${tag}: not tried, since ${why}.`
    : `${as} ${tag}: ${stageWordText(verdict.word)}. ${verdict.why}`
