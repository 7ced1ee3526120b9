import { readFileSync } from 'node:fs'
import { basename } from 'node:path'
import type { Command } from 'commander'
import {
  addJobText,
  type Bench,
  changeJob,
  dropJob,
  jobDocument,
  jobList,
  jobReport,
  jobsDocument,
  keepPhoto,
  onBench,
  release,
  reserveFor,
  seeJob,
  unknownTypes,
} from '#bench'
import { FaultError } from '#core/fault'
import { type Job, jobExampleYaml, jobFileSchema, jobStates, powers } from '#core/job'
import { writeExample } from './example.ts'
import { type JobOptions, onJob, partNotes, requireChange, sayEdited } from './job-common.ts'
import { jobLines, jobListLines } from './job-lines.ts'
import { definePositions } from './job-position.ts'
import { benchOptions, choiceOption, dateOption, namedInput, withBook, withJson, withVerbs } from './options.ts'
import { printJson, printLines } from './output.ts'
import { outText, printSheet } from './sheet.ts'

const which = 'name of the job, or its number'

export function define(command: Command): void {
  withVerbs(command, 'print a job file that works', (o) => writeExample(jobExampleYaml, 'yaml', o))
  const verb = (name: string, description: string): Command =>
    withJson(withBook(command.command(name).description(description)))
  verb('list', 'List the jobs of a book and how far they are.').action(list)
  verb('show', 'Show a job: its board, and what its parts do in their positions.')
    .argument('<job>', which)
    .action((name: string, o: JobOptions) => onJob(name, o, (bench, job) => show(bench, job, o)))
  verb('add', 'Add a job with its positions from a file, all or nothing.')
    .argument('[file]', 'job as YAML or JSON; - reads standard input')
    .action(add)
  verb('edit', 'Change what is said of a job.')
    .argument('<job>', which)
    .option('--name <name>', 'its name')
    .option('--equipment <words>', 'what it is')
    .option('--power <power>', `what it runs from: ${powers.join(', ')}`)
    .option('--state <state>', `${jobStates.join(', ')}; one that is done gets its date`)
    .option('--begun <date>', 'when it was begun')
    .option('--finished <date>', 'when it was finished')
    .option('--note <note>', 'anything to remember')
    .action((name: string, o: EditOptions) => onJob(name, o, (bench, job) => edit(bench, job, o)))
  verb('remove', 'Take a job away; its reserved parts are free again. It can be undone on the page.')
    .argument('<job>', which)
    .action((name: string, o: JobOptions) =>
      onJob(name, o, async (bench, job) => sayEdited(await dropJob(bench, job.id), o, `${job.name}: taken away.`)),
    )
  definePositions(verb)
  verb('reserve', 'Put a part aside for a job, or for one of its positions.')
    .argument('<job>', which)
    .argument('<tag>', 'tag of the part')
    .option('--for <ref>', 'the position it is meant for')
    .action((name: string, tag: string, o: JobOptions & { readonly for?: string }) =>
      onJob(name, o, async (bench, job) => {
        const to = { job: job.id, tag, ...(o.for === undefined ? {} : { ref: o.for }) }
        sayEdited(
          await reserveFor(bench, to),
          o,
          `${tag}: reserved for ${[job.name, o.for].filter(Boolean).join(', ')}.`,
          await partNotes(bench, job, o.for, tag),
        )
      }),
    )
  verb('release', 'Let a part go that was reserved.')
    .argument('<tag>', 'tag of the part')
    .action((tag: string, o: JobOptions) =>
      onBench(benchOptions(o, true), async (bench) => sayEdited(await release(bench, tag), o, `${tag}: released.`)),
    )
  verb('photo', 'Keep a photo of a job in the book: PNG, JPEG or WebP.')
    .argument('<job>', which)
    .argument('<picture>', 'file of the photo')
    .action((name: string, file: string, o: JobOptions) =>
      onJob(name, o, (bench, job) => photo(bench, job, { file, o })),
    )
  verb('report', 'Print the report of a job: positions, decisions, verdicts with their working, cautions.')
    .argument('<job>', which)
    .option('--out <file>', outText)
    .action((name: string, o: JobOptions & { readonly out?: string }) =>
      onJob(name, o, async (bench, job) => {
        const { seen, sheet } = await jobReport(bench, job)
        await printSheet(sheet, () => jobDocument(seen), o)
      }),
    )
  withJson(command.command('schema').description('Print the JSON Schema of job files.')).action(() =>
    printJson(jobFileSchema()),
  )
}

async function list(o: JobOptions): Promise<void> {
  await onBench(benchOptions(o, true), async (bench) => {
    const all = await jobList(bench)
    if (o.json === true) printJson(jobsDocument(all))
    else printLines(jobListLines(all))
  })
}

async function show(bench: Bench, job: Job, o: JobOptions): Promise<void> {
  const seen = await seeJob(bench, job)
  if (o.json === true) printJson(jobDocument(seen))
  else printLines(jobLines(seen))
}

async function add(file: string | undefined, o: JobOptions): Promise<void> {
  const { text, file: name } = namedInput(file, 'job')
  await onBench(benchOptions(o, true), async (bench) => {
    const done = await addJobText(bench, text, name)
    const { job } = done
    const unknown = unknownTypes(bench, job)
    const positions = `${job.positions.length} ${job.positions.length === 1 ? 'position' : 'positions'}`
    sayEdited(done, o, `${job.name}: added as job ${job.id} with ${positions}.`)
    if (unknown.length > 0 && o.json !== true)
      printLines([`No record of a part type called ${unknown.join(', ')}: see "germane type find".`])
  })
}

interface EditOptions extends JobOptions {
  readonly name?: string
  readonly equipment?: string
  readonly power?: string
  readonly state?: string
  readonly begun?: string
  readonly finished?: string
  readonly note?: string
}

async function edit(bench: Bench, job: Job, o: EditOptions): Promise<void> {
  const { name, equipment, power, state, begun, finished, note } = o
  const date = (option: string, text: string): string => (text === '' ? '' : dateOption(option, text))
  const changes = {
    ...(name === undefined ? {} : { name }),
    ...(equipment === undefined ? {} : { equipment }),
    ...(power === undefined ? {} : { power: power === '' ? null : choiceOption('--power', power, powers) }),
    ...(state === undefined ? {} : { state: choiceOption('--state', state, jobStates) }),
    ...(begun === undefined ? {} : { begunOn: date('--begun', begun) }),
    ...(finished === undefined ? {} : { finishedOn: date('--finished', finished) }),
    ...(note === undefined ? {} : { note }),
  }
  requireChange(changes, '--name, --equipment, --power, --state, --begun, --finished or --note')
  sayEdited(await changeJob(bench, job.id, changes), o, `${job.name}: changed.`)
}

async function photo(bench: Bench, job: Job, { file, o }: { file: string; o: JobOptions }): Promise<void> {
  const { photo, edit } = await keepPhoto(bench, { job: job.id, name: basename(file), content: pictureBytes(file) })
  sayEdited({ job, edit, parts: [] }, o, `${job.name}: ${photo.name} kept.`)
}

function pictureBytes(file: string): Uint8Array {
  try {
    return readFileSync(file === '-' ? 0 : file)
  } catch (error) {
    const problem = `cannot be read (${(error as NodeJS.ErrnoException).code ?? String(error)})`
    throw new FaultError({ code: 'file', file, problem, mend: 'Check the name and your right to read it.' })
  }
}
