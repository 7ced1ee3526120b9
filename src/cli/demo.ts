import { existsSync } from 'node:fs'
import type { Command } from 'commander'
import { clearBench, dropOldDemo, makeDemo, verdictsDocument } from '#bench'
import { judgedLines } from './judge.ts'
import { withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { parameterLines } from './say.ts'

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
        'The demo: the chart recorder of the tide gauge at Orrin Point (invented), 14 parts',
        'read on the Larkfield bench tester at 21 °C.',
        '',
        ...parameterLines(judged),
        '',
        ...judgedLines(judged, {}),
        '',
        `The demo book is ${o.book}. Look closer: npx germane part show OP-4 --book ${o.book} --working`,
      ])
    })
}
