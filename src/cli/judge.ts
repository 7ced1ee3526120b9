import type { Command } from 'commander'
import {
  type Judged,
  judgeReduced,
  keepReadings,
  onBench,
  partVerdict,
  reduceFile,
  ruleDefaults,
  verdictsByPart,
  verdictsDocument,
} from '#bench'
import type { Rule } from '#core/judge'
import { exitCodes } from './exit.ts'
import { badOption, benchOptions, optionValue } from './options.ts'
import { printJson, printLines } from './output.ts'
import { printExample, type ReadingsOptions, readingsInput, takesReadings, workingBlock } from './reduce.ts'
import { block, doubtLines, incomparableLines, partLines, verdictLines, verdictReasons } from './say.ts'

interface JudgeOptions extends ReadingsOptions {
  readonly rule?: string
  readonly sure?: string
  readonly keep?: boolean
  readonly lot?: string
  readonly again?: boolean
}

export function define(command: Command): void {
  takesReadings(command)
    .option('--rule <rule>', 'guarded: be sure either way; simple: the likelier of the two', ruleDefaults.kind)
    .option('--sure <percent>', 'how sure a guarded verdict must be', '95 %')
    .option('--keep', 'keep readings and results in the book')
    .option('--lot <lot>', 'with --keep: the lot the parts belong to')
    .option('--again', 'with --keep: take a file again that was taken before')
    .action(async (file: string | undefined, o: JudgeOptions) => {
      if (o.example === true || file === undefined) return printExample(o)
      const rule = ruleOf(o)
      await onBench(benchOptions(o, o.keep === true), async (bench) => {
        const input = await readingsInput(bench, file, o)
        const judged =
          o.keep === true
            ? (await keepReadings(bench, { ...input, rule, ...kept(o) })).judged
            : judgeReduced(reduceFile(bench, { ...input, at25: o.json === true || o.working !== undefined }), rule)
        if (o.json === true) printJson(verdictsDocument(judged))
        else printLines(judgedLines(judged, o))
        if (failed(judged)) process.exitCode = exitCodes.notConforming
      })
    })
}

const kept = (o: JudgeOptions): { lot?: string; again?: boolean } => ({
  ...(o.lot === undefined ? {} : { lot: o.lot }),
  ...(o.again === undefined ? {} : { again: o.again }),
})

/** Whether any part does not conform: what exit code 1 says. */
export function failed(judged: Judged): boolean {
  const byPart = verdictsByPart(judged)
  return judged.results.some((r) => partVerdict(r, byPart.get(r.part)!) === 'does not conform')
}

export function ruleOf(o: { readonly rule?: string; readonly sure?: string }): Rule {
  const kind = o.rule ?? ruleDefaults.kind
  if (kind !== 'simple' && kind !== 'guarded') throw badOption('--rule', kind, 'is no rule', 'Write guarded or simple.')
  const sure = o.sure ?? '95 %'
  const { value } = optionValue('--sure', sure, '1')
  const probability = value > 1 ? value / 100 : value
  if (probability >= 0.5 && probability < 1) return { kind, probability }
  throw badOption('--sure', sure, 'is not between 50 % and 100 %', 'Write for example 95 %.')
}

export function judgedLines(judged: Judged, o: Pick<JudgeOptions, 'all' | 'working'>): readonly string[] {
  return [
    ...verdictLines(judged, o),
    ...block('Why, and what would settle it:', verdictReasons(judged)),
    ...block('Limits that could not be compared:', incomparableLines(judged)),
    ...block('To know:', doubtLines(judged)),
    '',
    ...partLines(judged),
    ...workingBlock(judged, o),
  ]
}
