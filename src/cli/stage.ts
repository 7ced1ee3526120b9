import type { Command } from 'commander'
import { onBench, positionFromText, seeStage, stageDocument } from '#bench'
import { stageExampleYaml, templates } from '#core/stage'
import { exitCodes } from './exit.ts'
import { badOption, benchOptions, namedInput, withBook, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { stageLines } from './stage-lines.ts'
import { tableLines } from './table.ts'

interface StageOptions {
  readonly part?: string
  readonly type?: string
  readonly book?: string
  readonly count?: string
  readonly seed?: string
  readonly templates?: boolean
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  command.argument('[file]', 'position as YAML or JSON; - reads standard input')
  withBook(withJson(command))
    .option('--part <tag>', 'look at this part of the book in the place')
    .option('--type <type>', 'look at this published type; with --part, what the part is')
    .option('--count <stages>', 'stages of the spread, 0 for none (default: 500)')
    .option('--seed <number>', 'the same seed gives the same spread (default: 1)')
    .option('--templates', 'list the stages there are, with their resistors')
    .option('--example', 'print a position that works')
    .action(stage)
}

async function stage(file: string | undefined, o: StageOptions): Promise<void> {
  if (o.example === true) return void process.stdout.write(stageExampleYaml)
  if (o.templates === true) return printTemplates(o)
  const { text, file: name } = namedInput(file, 'position')
  const read = positionFromText(text, name)
  const wish = {
    ...(o.part === undefined ? {} : { part: o.part }),
    ...(o.type === undefined ? {} : { type: o.type }),
    ...whole('--count', 'count', o.count, 100_000),
    ...whole('--seed', 'seed', o.seed, Number.MAX_SAFE_INTEGER),
  }
  const seen = await onBench(benchOptions(o, o.part !== undefined), (bench) => seeStage(bench, read, wish))
  if (o.json === true) printJson(stageDocument(seen))
  else printLines(stageLines(seen))
  if (seen.answer.verdict.word === 'will not') process.exitCode = exitCodes.notConforming
}

function whole(option: string, key: string, text: string | undefined, most: number): Readonly<Record<string, number>> {
  if (text === undefined) return {}
  const value = Number(text)
  if (text.trim() !== '' && Number.isInteger(value) && value >= 0 && value <= most) return { [key]: value }
  throw badOption(option, text, 'is not a whole number that can be used', `Write one from 0 to ${most}.`)
}

function printTemplates(o: StageOptions): void {
  if (o.json === true) printJson(templatesDocument())
  else printLines(templateLines())
}

const templatesDocument = () => ({
  format: 'germane/stage-templates/1',
  templates: templates.map(({ id, title, says, supplyV, resistors, thermistors, places }) => ({
    id,
    title,
    says,
    supply: supplyV,
    resistors: [...resistors, ...thermistors].map(({ ref, ohm, role, absent }) => ({
      ref,
      ohm,
      role,
      needed: absent === undefined,
    })),
    places: places.map(({ ref, kind, role, isOpposite = false }) => ({ ref, kind, role, opposite: isOpposite })),
  })),
})

const templateLines = (): readonly string[] =>
  tableLines(
    ['stage', 'resistors, [may be left out]', 'parts', 'what it is'],
    templates.map((t) => [
      t.id,
      [...t.resistors, ...t.thermistors].map((r) => (r.absent === undefined ? r.ref : `[${r.ref}]`)).join(' '),
      t.places.map((p) => p.ref).join(' '),
      t.title,
    ]),
  )
