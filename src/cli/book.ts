import type { Command } from 'commander'
import { backupOf, bookInfo, checkWholeBook, exportBook, makeBook, onBench, restoreBook } from '#bench'
import { FaultError } from '#core/fault'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { defineFill } from './fill.ts'
import { readInput } from './input.ts'
import { benchOptions, withBook, withJson, withVerbs } from './options.ts'
import { printJson, printLines } from './output.ts'
import { defineRecompute } from './recompute.ts'
import { writeOut } from './write-out.ts'

interface BookOptions {
  readonly book?: string
  readonly json?: boolean
  readonly csv?: boolean
  readonly out?: string
  readonly from?: string
}

const commandsExample = `germane book create bench.germane
germane judge readings.csv --tester larkfield --keep --book bench.germane
germane book check --book bench.germane
germane book backup copy.germane --book bench.germane
`

export function define(command: Command): void {
  withVerbs(command, 'print commands that work', (o) => writeExample(commandsExample, 'text', o))
  const verb = (name: string, description: string): Command =>
    withJson(withBook(command.command(name).description(description)))
  withJson(command.command('create').description('Make a new book.')).argument('<file>', 'the new book').action(create)
  verb('info', 'Say what is in a book.').action(info)
  verb('check', 'Read a book whole, recompute every result and say what is wrong.').action(check)
  verb('backup', 'Copy a book, even while it is in use, and read the copy again.')
    .argument('<to>', 'the copy; there must be no file of that name')
    .action(backup)
  verb('export', 'Write a book as JSON, or its readings as CSV, to standard output.')
    .option('--csv', 'the readings as CSV')
    .option('--out <file>', 'write to a file')
    .action(exportIt)
  defineFill(verb('fill', 'Fill a book with invented parts, to see how it behaves when it is large.'))
  defineRecompute(verb('recompute', 'Compute finished runs anew with another version of their tester.'))
  withJson(command.command('import').description('Make a book from an exported JSON file.'))
    .argument('<file>', 'what "germane book export" wrote; - reads standard input')
    .argument('<book>', 'the new book')
    .action(importIt)
}

async function create(file: string, o: BookOptions): Promise<void> {
  await makeBook(file, new Date().toISOString())
  if (o.json === true) printJson({ format: 'germane/book-info/1', file, made: true })
  else printLines([`${file} is ready. Name it with --book, or set GERMANE_BOOK.`])
}

async function info(o: BookOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const said = await bookInfo(bench)
    if (o.json === true) printJson({ format: 'germane/book-info/1', ...said })
    else
      printLines([
        said.file,
        ...Object.entries(said.counts).map(([table, n]) => `  ${String(n).padStart(8)}  ${table}`),
      ])
  })
}

async function check(o: BookOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const report = await checkWholeBook(bench)
    if (o.json === true) printJson({ format: 'germane/book-check/1', ...report })
    else
      printLines(
        report.ok
          ? [`Nothing is wrong. ${report.recomputed} results were computed again and agree with what is kept.`]
          : report.findings.map((f) => f.say),
      )
    if (!report.ok) process.exitCode = exitCodes.notConforming
  })
}

async function backup(to: string, o: BookOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const made = await backupOf(bench, to)
    if (o.json === true) printJson({ format: 'germane/backup/1', ...made })
    else printLines([`${made.file}: ${made.bytes} bytes, read again and found the same.`])
  })
}

async function exportIt(o: BookOptions): Promise<void> {
  if (o.csv === true && o.json === true && o.out === undefined)
    throw new FaultError({
      code: 'usage',
      problem: '--csv and --json both say what to print',
      mend: 'Leave one out, or name a file for the CSV with --out.',
    })
  await onBench(benchOptions(o, true), async (bench) => {
    const text = await exportBook(bench, o.csv === true ? 'csv' : 'json')
    if (o.out === undefined) return void process.stdout.write(text)
    writeOut(o.out, text)
    if (o.json === true) printJson({ format: 'germane/written/1', file: o.out })
    else printLines([`${o.out} is written.`])
  })
}

async function importIt(file: string, book: string, o: BookOptions): Promise<void> {
  const input = readInput(file)
  await restoreBook(input.text, input.file, book)
  if (o.json === true) printJson({ format: 'germane/book-info/1', file: book, made: true })
  else printLines([`${book} was made from ${input.file}.`])
}
