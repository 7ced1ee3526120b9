import { type Command, Option } from 'commander'
import { calibrateFile, calibrationDocument, keepCalibration, keptCalibration, onBench, withCalibration } from '#bench'
import { type CalibrationHead, calibrationExampleCsv, yearAfter } from '#core/upkeep'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import {
  badOption,
  benchOptions,
  chosenTester,
  dateOption,
  namedInput,
  optionAmbient,
  withAmbient,
  withBook,
  withExample,
  withJson,
} from './options.ts'
import { printLines } from './output.ts'
import { outText, printSheet } from './sheet.ts'

interface CalibrateVerbOptions {
  readonly date?: string
  readonly from?: string
  readonly due?: string
  readonly by?: string
  readonly reference?: string
  readonly note?: string
  readonly ambient?: string
  readonly law: 'auto' | 'line' | 'curve'
  readonly keep?: boolean
  readonly out?: string
  readonly json?: boolean
  readonly book?: string
}

/** Adds `germane tester calibrate`. */
export function defineCalibrate(group: Command): void {
  const command = group
    .command('calibrate')
    .description(
      'Calibrate ranges, or the gain dial, against a reference; say what to trim, and write the certificate.',
    )
    .argument('<tester>', 'id of a sample or of one in the book, or a description file')
    .argument('[file]', 'CSV with range, reference, shown and way; - reads standard input')
  withAmbient(
    withBook(
      withJson(withExample(command, 'print readings that work', (o) => writeExample(calibrationExampleCsv, 'csv', o))),
    ),
  )
    .option('--date <date>', 'day it was made, such as 2024-05-12 (default: today)')
    .option('--from <date>', 'day from which it corrects readings (default: the day it was made)')
    .option('--due <date>', 'day by which it wants to be made again (default: a year later)')
    .option('--by <name>', 'who made it')
    .option('--reference <text>', 'what it was held against')
    .option('--note <text>', 'anything worth knowing')
    .addOption(
      new Option('--law <law>', 'how the correction is laid').choices(['auto', 'line', 'curve']).default('auto'),
    )
    .option('--keep', 'keep it in the book as a new version of the tester')
    .option('--out <file>', outText)
    .action((tester: string, file: string | undefined, o: CalibrateVerbOptions) => calibrateTester(tester, file, o))
}

/** Adds `germane tester certificate`. */
export function defineCertificate(group: Command): void {
  const command = group
    .command('certificate')
    .description('Print the certificate of a calibration that was kept.')
    .argument('<tester>', 'id of one in the book, or a description file')
  withBook(withJson(command))
    .option('--date <date>', 'day it was made (default: the newest)')
    .option('--out <file>', outText)
    .action((named: string, o: Pick<CalibrateVerbOptions, 'date' | 'out' | 'json' | 'book'>) =>
      onBench(benchOptions(o), async (bench) => {
        const date = o.date === undefined ? undefined : dateOption('--date', o.date)
        const done = keptCalibration(chosenTester(bench, named), date)
        await printSheet(done.sheet, () => calibrationDocument(done), o)
      }),
    )
}

async function calibrateTester(named: string, file: string | undefined, o: CalibrateVerbOptions): Promise<void> {
  const options = benchOptions(o, o.keep === true)
  await onBench({ ...options, create: o.keep === true }, async (bench) => {
    const known = chosenTester(bench, named)
    const head = headOf(o, bench.now())
    const done = calibrateFile({ known, ...namedInput(file, 'file of readings'), head, law: o.law })
    withCalibration(done)
    const kept = o.keep === true ? await keepCalibration(bench, done) : undefined
    await printSheet(done.sheet, () => calibrationDocument(done, kept), o)
    if (kept !== undefined && o.json !== true)
      printLines(['', `${known.tester.name} is in the book with this calibration as version ${kept.version}.`])
    if (done.ranges.some((r) => r.calibration.trust === 'not trusted')) process.exitCode = exitCodes.notConforming
  })
}

function headOf(o: CalibrateVerbOptions, now: string): CalibrationHead {
  const date = o.date === undefined ? now.slice(0, 10) : dateOption('--date', o.date)
  const { ambientC } = optionAmbient(o.ambient)
  const due = o.due === undefined ? yearAfter(date) : dateOption('--due', o.due)
  if (due < date) throw badOption('--due', due, `is before the ${date} it was made`, 'Give a later day.')
  return {
    date,
    ...(o.from === undefined ? {} : { from: dateOption('--from', o.from) }),
    due,
    ...(o.by === undefined ? {} : { by: o.by }),
    ...(o.reference === undefined ? {} : { reference: o.reference }),
    ...(o.note === undefined ? {} : { note: o.note }),
    ...(ambientC === undefined ? {} : { ambientC }),
  }
}
