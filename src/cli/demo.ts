import { existsSync } from 'node:fs'
import type { Command } from 'commander'
import { clearBench, dropOldDemo, makeDemo, verdictsDocument } from '#bench'
import { withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { doubtLines, parameterLines, partLines, verdictLines, verdictReasons } from './say.ts'

interface DemoOptions {
  readonly book: string
  readonly json?: boolean
}

export function define(command: Command): void {
  withJson(command)
    .option('--book <file>', 'where to make it; an older demo book there is made anew', 'demo.germane')
    .option('--example', 'the demo is its own example')
    .action(async (o: DemoOptions) => {
      if (existsSync(o.book)) await dropOldDemo(o.book)
      const { bench, kept } = await makeDemo(o.book)
      const { judged } = kept
      await clearBench(bench)
      if (o.json === true) return printJson(verdictsDocument(judged))
      printLines([
        'Demo: the chart recorder of the tide gauge at Orrin Point (invented).',
        '',
        ...parameterLines(judged),
        '',
        '* brought to 25 °C by the law of the material.',
        '',
        ...verdictLines(judged),
        '',
        'Why, and what would settle it:',
        ...verdictReasons(judged),
        '',
        'To know:',
        ...doubtLines(judged),
        '',
        ...partLines(judged),
        '',
        `The demo book is ${o.book}. Next: npx germane part show OP-4 --book ${o.book} --working`,
      ])
    })
}
