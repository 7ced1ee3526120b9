import { type Command, Option } from 'commander'
import { gaugeDocument, gaugeFile } from '#bench'
import { gaugeExampleCsv, gaugeWord } from '#core/upkeep'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { namedInput, positiveOption, withExample, withJson } from './options.ts'
import { outText, printSheet } from './sheet.ts'

interface GaugeVerbOptions {
  readonly method: 'anova' | 'ranges'
  readonly tolerance?: string
  readonly out?: string
  readonly json?: boolean
}

/** Adds `germane tester gauge`. */
export function defineGauge(group: Command): void {
  const command = group
    .command('gauge')
    .description('Tell how far several hands agree, and each with itself.')
    .argument('[file]', 'CSV with part, hand and reading; - reads standard input')
  withJson(withExample(command, 'print a table that works', (o) => writeExample(gaugeExampleCsv, 'csv', o)))
    .addOption(new Option('--method <method>', 'how it is worked out').choices(['anova', 'ranges']).default('anova'))
    .option('--tolerance <width>', 'from lower to upper limit of the parts, such as "50 uA"')
    .option('--out <file>', outText)
    .action(async (file: string | undefined, o: GaugeVerbOptions) => {
      const gauged = gaugeFile(namedInput(file, 'table'), (unit) => ({
        method: o.method,
        ...(o.tolerance === undefined ? {} : { tolerance: positiveOption('--tolerance', o.tolerance, unit) }),
      }))
      await printSheet(gauged.sheet, () => gaugeDocument(gauged), o)
      if (gaugeWord(gauged.result).word === 'poor') process.exitCode = exitCodes.notConforming
    })
}
