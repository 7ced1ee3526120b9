import type { Command } from 'commander'
import { judgeReduced, onBench, type ReportWishes, reduceFile, reportOfJudged, reportOfKept } from '#bench'
import { FaultError } from '#core/fault'
import { ruleOf } from './judge.ts'
import { benchOptions, gather } from './options.ts'
import { printJson, printLines } from './output.ts'
import { printExample, type ReadingsOptions, readingsInput, takesReadings } from './reduce.ts'
import { refuseNoPage, writeOut } from './write-out.ts'

interface ReportOptions extends ReadingsOptions {
  readonly part?: readonly string[]
  readonly lot?: string
  readonly title?: string
  readonly note?: readonly string[]
  readonly out?: string
}

export function define(command: Command): void {
  takesReadings(command)
    .option('--part <tag>', 'a part of the book; may be given more than once', gather)
    .option('--lot <lot>', 'a lot of the book')
    .option('--title <title>', 'heading of the page')
    .option('--note <text>', 'a paragraph to print; may be given more than once', gather)
    .option('--out <file>', 'file to write (default: standard output)')
    .action(async (file: string | undefined, o: ReportOptions) => {
      if (o.example === true) return printExample(o)
      if (o.out !== undefined) refuseNoPage(o.out)
      const fromBook = o.part !== undefined || o.lot !== undefined
      if (!fromBook && file === undefined)
        throw new FaultError({
          code: 'usage',
          problem: 'Nothing was named to report on',
          mend: 'Name a file of readings, or parts of a book with --part or --lot.',
        })
      await onBench(benchOptions(o, fromBook), async (bench) => {
        const html =
          file === undefined
            ? await reportOfKept(
                bench,
                { ...(o.part === undefined ? {} : { tags: o.part }), ...(o.lot === undefined ? {} : { lot: o.lot }) },
                wishes(o),
              )
            : reportOfJudged(
                bench,
                judgeReduced(reduceFile(bench, await readingsInput(bench, file, o)), ruleOf({})),
                wishes(o),
              )
        if (o.out !== undefined) writeOut(o.out, html)
        if (o.json === true)
          printJson({ format: 'germane/report/1', file: o.out ?? null, html: o.out === undefined ? html : null })
        else if (o.out === undefined) process.stdout.write(html)
        else printLines([`${o.out} is written; open it in a browser.`])
      })
    })
}

const wishes = (o: ReportOptions): ReportWishes => ({
  ...(o.title === undefined ? {} : { title: o.title }),
  ...(o.note === undefined ? {} : { notes: o.note }),
  ...(o.working === undefined ? {} : { workings: 'open' }),
})
