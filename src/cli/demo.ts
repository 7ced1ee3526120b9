import type { Command } from 'commander'
import { makeDemo, verdictsDocument } from '#bench'
import { judgedLines } from './judge.ts'
import { withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { parameterLines } from './say.ts'

interface DemoOptions {
  readonly book: string
  readonly json?: boolean
  readonly again?: boolean
}

export function define(command: Command): void {
  withJson(command)
    .option('--book <file>', 'where to make it; a demo book that is there is kept', 'demo.germane')
    .option('--again', 'make it anew: what was entered into the old one is lost')
    .option('--example', 'the demo is its own example')
    .action(async (o: DemoOptions) => {
      const { judged, isNew } = await makeDemo(o.book, o.again === true)
      if (o.json === true) return printJson(verdictsDocument(judged))
      printLines([
        'The demo: the chart recorder of the tide gauge at Orrin Point (invented), 14 parts',
        'read on the Larkfield bench tester at 21 °C.',
        '',
        ...parameterLines(judged),
        '',
        ...judgedLines(judged, {}),
        '',
        `The demo book is ${o.book}${isNew ? '' : ', as you left it'}. Look closer: npx germane part show OP-4 --book ${o.book} --working`,
      ])
    })
}
