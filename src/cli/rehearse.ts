import type { Command } from 'commander'
import { onBench, type PlayedLot, rehearsalDocument, rehearseLot } from '#bench'
import { type Device, modelCardExample, type NamedDevice, readModelCards } from '#core/circuit'
import { printPlain } from '#core/quantity'
import { rehearsalDefaults } from '#core/rehearsal'
import { readingsCsv } from '#core/tester'
import { writeExample } from './example.ts'
import { badOption, benchOptions, chosenTester, gather, namedInput, positiveOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { type PlanOptions, planned, takesWishes } from './plan.ts'
import { tableLines, wrapped } from './table.ts'
import { writeOut } from './write-out.ts'

interface RehearseOptions extends PlanOptions {
  readonly parts?: string
  readonly spread?: string
  readonly leakage?: readonly string[]
  readonly seed?: string
  readonly truth?: boolean
  readonly out?: string
}

export function define(command: Command): void {
  command.argument('[file]', '.model cards of the parts; - reads standard input')
  withJson(takesWishes(command))
    .option('--type <type>', 'part type the run sheet is for (default: an unmarked part of the kind of the card)')
    .option('--parts <count>', 'parts of each card (default: 1)')
    .option('--spread <part>', 'how far apart parts of one card lie (default: 20 %)')
    .option(
      '--leakage <leads=ohm>',
      'leakage over the surface: cb=1.5Mohm, ce=, for a diode ak=; may stand again',
      gather,
    )
    .option('--seed <number>', `the same seed gives the same tester and readings (default: ${rehearsalDefaults.seed})`)
    .option('--truth', 'print what is true beside what the readings say, not the readings')
    .option('--out <file>', 'write the readings to a file')
    .option('--example', 'print a model card that works')
    .action(async (file: string | undefined, o: RehearseOptions) => {
      if (o.example === true) return writeExample(modelCardExample, 'text', o)
      const cards = namedInput(file, 'model card')
      const devices = readModelCards(cards.text, { file: cards.file }).map((d) => leaky(d, o.leakage ?? []))
      await onBench(benchOptions(o), (bench) => {
        const { tester } = chosenTester(bench, o.tester)
        const sheet = planned(bench, tester, o.type ?? 'unknown', {
          ...(o.type === undefined ? kindOf(devices) : {}),
          ...o,
        })
        const played = rehearseLot({
          sheet,
          devices,
          parts: wholeOf('--parts', o.parts ?? '1', 1, 1000),
          spread: spreadOf(o.spread ?? '20 %'),
          ambientC: o.ambient === undefined ? rehearsalDefaults.ambientC : sheet.wishes.ambientC,
          seed: wholeOf('--seed', o.seed ?? String(rehearsalDefaults.seed), 0, 2 ** 31),
        })
        if (o.out !== undefined) writeOut(o.out, csvOf(played))
        if (o.json === true) printJson(rehearsalDocument(played))
        else if (o.truth === true) printLines(truthLines(played))
        else if (o.out === undefined) process.stdout.write(csvOf(played))
        else
          printLines([
            `${played.readings.length} readings are in ${o.out}. Judge them with: germane judge ${o.out} --tester ${o.tester}`,
          ])
      })
    })
}

/** What the first card says of an unmarked part. */
function kindOf([first]: readonly NamedDevice[]): Pick<PlanOptions, 'polarity' | 'family'> {
  const device = first?.device
  if (device?.kind === 'bipolar') return { family: 'bjt', polarity: device.polarity }
  return { family: 'diode' }
}

function wholeOf(option: string, text: string, from: number, to: number): number {
  const value = Number(text)
  if (text.trim() !== '' && Number.isInteger(value) && value >= from && value <= to) return value
  throw badOption(option, text, 'is not a whole number that is allowed', `Give one from ${from} to ${to}.`)
}

function spreadOf(text: string): number {
  const value = positiveOption('--spread', text, '1')
  if (value <= 1) return value
  throw badOption('--spread', text, 'is more than a lot can lie apart', 'Give it as a part, such as 20 %.')
}

/** A device with the leakage that was asked for, where it has such leads. */
function leaky({ name, device }: NamedDevice, leakage: readonly string[]): NamedDevice {
  return { name, device: leakage.reduce(withLeakage, device) }
}

function withLeakage(device: Device, text: string): Device {
  const [leads = '', value = ''] = text.split(/=(.*)/s).map((s) => s.trim())
  const ohm = (): number => positiveOption('--leakage', value, 'ohm')
  if (device.kind === 'bipolar' && (leads === 'cb' || leads === 'ce'))
    return { ...device, leakOhm: { ...device.leakOhm, [leads]: ohm() } }
  if (device.kind === 'diode' && leads === 'ak') return { ...device, parallelOhm: ohm() }
  throw badOption(
    '--leakage',
    text,
    'does not name leads of this part',
    'Write cb=1.5Mohm or ce=300kohm, for a diode ak=2Mohm.',
  )
}

/** The readings as a file, with what they are and what was left out above them. */
function csvOf({ sheet, seed, ambientC, readings, leftOut }: PlayedLot): string {
  const head = [
    `# Rehearsal, not measured: ${sheet.title}, seed ${seed}, room at ${ambientC} degC.`,
    ...leftOut.map((l) => `# ${l.part}, ${l.step} was left out: ${l.why}`),
  ]
  return `${head.join('\n')}\n${readingsCsv(readings)}`
}

function truthLines({ sheet, truths, leftOut }: PlayedLot): readonly string[] {
  const text = (x: number, unit: Parameters<typeof printPlain>[1]): string => printPlain(x, unit, { digits: 3 })
  const rows = truths.flatMap(({ part, symbol, point, value, unit, read }) => {
    if (read === undefined) return []
    const [low, high] = read.interval95
    const isInside = low <= value && value <= high
    return [
      [
        part,
        symbol,
        String(point),
        text(value, unit),
        text(read.value, unit),
        `${text(low, unit)} to ${text(high, unit)}`,
        isInside ? 'inside' : 'outside',
      ],
    ]
  })
  return [
    sheet.title,
    '',
    ...tableLines(['part', 'parameter', '>point', '>truth', '>read', '95 % interval', 'the truth is'], rows),
    ...(leftOut.length === 0
      ? []
      : ['', ...leftOut.flatMap((l) => wrapped(`${l.part}, ${l.step} was left out: ${l.why}`))]),
  ]
}
