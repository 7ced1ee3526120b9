import type { Command } from 'commander'
import { onBench, type RecomputeReport, recomputeRuns, testerNamed } from '#bench'
import { FaultError } from '#core/fault'
import { badOption, benchOptions, dateOption } from './options.ts'
import { printJson, printLines } from './output.ts'
import { tableLines, wrapped } from './table.ts'

interface RecomputeOptions {
  readonly tester?: string
  readonly toVersion?: string
  readonly since?: string
  readonly until?: string
  readonly apply?: boolean
  readonly book?: string
  readonly json?: boolean
}

/** Adds what `germane book recompute` takes. */
export function defineRecompute(command: Command): void {
  command
    .option('--tester <tester>', 'whose runs are computed anew')
    .option('--to-version <number>', 'version of the tester to compute with (default: the newest)')
    .option('--since <date>', 'runs started on this day or later')
    .option('--until <date>', 'runs started on this day or before')
    .option('--apply', 'keep what was computed; without it nothing is changed')
    .action(recompute)
}

async function recompute(o: RecomputeOptions): Promise<void> {
  const named = o.tester
  if (named === undefined)
    throw new FaultError({ code: 'usage', problem: 'No tester was named', mend: 'Add --tester with its id.' })
  await onBench(benchOptions(o, true), async (bench) => {
    const report = await recomputeRuns(bench, {
      tester: testerNamed(bench, named).tester.id,
      ...(o.toVersion === undefined ? {} : { version: versionOf(o.toVersion) }),
      ...(o.since === undefined ? {} : { since: dateOption('--since', o.since) }),
      ...(o.until === undefined ? {} : { until: dateOption('--until', o.until) }),
      ...(o.apply === undefined ? {} : { apply: o.apply }),
    })
    if (o.json === true) printJson({ format: 'germane/recompute/1', ...report })
    else printLines(reportLines(report))
  })
}

function versionOf(text: string): number {
  const value = Number(text)
  if (Number.isInteger(value) && value >= 1) return value
  throw badOption('--to-version', text, 'is no version', 'Give its number, counted from 1.')
}

function reportLines(r: RecomputeReport): readonly string[] {
  if (r.runs.length === 0) return [`Every finished run of ${r.tester} here stands on version ${r.version} already.`]
  const rows = r.runs.map((run) => [
    String(run.run),
    run.startedAt.slice(0, 10),
    `${run.from} to ${run.to}`,
    String(run.parts),
    `${run.changed} of ${run.parameters}`,
    String(run.verdicts),
    run.most === undefined ? '' : `${run.most.part} ${run.most.symbol}: ${run.most.before} to ${run.most.after}`,
  ])
  const say = r.isApplied
    ? `Computed anew and kept: ${r.runs.length} of the runs, on version ${r.version}; their notes say so. "germane book recompute --to-version N --apply" with the version before brings the old results back.`
    : 'Nothing was changed. Add --apply to keep this.'
  return [
    ...tableLines(['>run', 'started', 'version', '>parts', '>numbers changed', '>verdicts changed', 'most'], rows),
    '',
    ...r.runs.flatMap((run) => (run.against ?? []).flatMap((one) => wrapped(`Run ${run.run}: ${one}`))),
    ...wrapped(say),
  ]
}
