import type { Command } from 'commander'
import { onBench, protectionSheet } from '#bench'
import { readModelCard } from '#core/circuit'
import { FaultError } from '#core/fault'
import { parseValue } from '#core/quantity'
import { type Movement, type Range, type Tester, terminalOhm } from '#core/tester'
import { nearNames } from '#core/text'
import {
  cautionsFor,
  type Drive,
  designRanges,
  type Exposure,
  type ProtectionDiode,
  protection,
  protectionDefaults,
} from '#core/upkeep'
import { exitCodes } from './exit.ts'
import { readInput } from './input.ts'
import { chosenMovement, type MovementOptions, withMovement } from './movement-options.ts'
import {
  badOption,
  benchOptions,
  chosenTester,
  clashFault,
  optionValue,
  partOption,
  positiveOption,
  temperatureSpan,
  withJson,
} from './options.ts'
import { printSheet } from './sheet.ts'

interface ProtectOptions extends MovementOptions {
  readonly range: string
  readonly overload?: string
  readonly source?: string
  readonly sourceOhm?: string
  readonly most?: string
  readonly bears?: string
  readonly from?: string
  readonly to?: string
  readonly card?: string
  readonly cardBears?: string
  readonly out?: string
  readonly json?: boolean
}

/** Resistance of leads and source of a mistaken supply, ohm (common practice). */
const usualSourceOhm = 1

/** Direct current a small diode bears, A (common practice). */
const usualDiodeA = 0.2

export function defineProtect(group: Command): void {
  const verb = group.command('protect').description('Choose diodes across a movement: what they cost and save.')
  withJson(withMovement(verb))
    .requiredOption('--range <range>', 'range to protect: its name on the tester, or a full scale: "1 mA"')
    .option(
      '--overload <times>',
      `how many times full scale it may get by mistake (default: ${protectionDefaults.bears})`,
    )
    .option('--source <voltage>', 'voltage that may be put on its terminals by mistake, in place of --overload')
    .option('--source-ohm <ohm>', `resistance of that source (default: ${usualSourceOhm} ohm)`)
    .option('--most <part>', 'error the diodes may make at full scale (default: a third of the class)')
    .option('--bears <times>', `full scales the movement bears for a moment (default: ${protectionDefaults.bears})`)
    .option('--from <temperature>', 'lowest temperature at the bench (default: 10 °C)')
    .option('--to <temperature>', 'highest temperature at the bench (default: 40 °C)')
    .option('--card <file>', 'model card of a diode of yours, as "germane fit" writes it; - reads standard input')
    .option('--card-bears <current>', 'direct current your diode bears (default: 200 mA)')
    .option('--out <file>', 'page to write')
    .action(async (o: ProtectOptions) => {
      const movement = await chosenMovement(o)
      const range = await chosenRange(o, movement)
      const overload = overloadOf(o)
      const mostError =
        o.most === undefined
          ? (movement.classPercent / 100) * protectionDefaults.partOfClass
          : partOption('--most', o.most)
      const bears = o.bears === undefined ? protectionDefaults.bears : positiveOption('--bears', o.bears, '1')
      const own = ownDiode(o)
      const found = protection({
        movement,
        range,
        overload,
        temperaturesC: temperaturesOf(o),
        mostError,
        bears,
        ...(own && { own }),
      })
      const cautions = cautionsFor(exposureOf(overload, range, movement))
      const asked = { range: range.id, overload, mostError, bears }
      await printSheet(
        protectionSheet(asked, found, cautions),
        () => ({ format: 'germane/protection/1', ...asked, ...found, cautions }),
        o,
      )
      if (found.recommended === undefined && found.bareTimes > bears) process.exitCode = exitCodes.notConforming
    })
}

/** The range of the tester named, or one made for the movement. */
async function chosenRange(o: ProtectOptions, m: Movement): Promise<Range> {
  if (o.tester !== undefined) {
    return onBench(benchOptions(o), (bench) =>
      Promise.resolve(rangeNamed(chosenTester(bench, o.tester).tester, o.range)),
    )
  }
  const parsed = parseValue(o.range)
  if (!parsed.ok) throw badOption('--range', o.range, parsed.problem, parsed.mend)
  const { value: fullScale, unit } = parsed
  if (unit !== 'A' && unit !== 'V')
    throw badOption('--range', o.range, 'is no full scale', 'Give a current or a voltage: "1 mA".')
  const [range] = designRanges(m, [{ measures: unit === 'A' ? 'current' : 'voltage', fullScale }], {
    tolerance: 0,
    contactOhm: 0,
  })
  return range!
}

/** The diode of a model card, one each way. */
function ownDiode(o: ProtectOptions): ProtectionDiode | undefined {
  if (o.card === undefined) return undefined
  const { text, file } = readInput(o.card)
  const line = text
    .split(/\r?\n/)
    .filter((l) => l.trim() !== '' && !l.startsWith('*'))
    .join('\n')
    .replaceAll(/\n\+/g, ' ')
  const read = readModelCard(line, { file })
  if (!('device' in read)) throw new FaultError(read)
  if (read.device.kind !== 'diode')
    throw new FaultError({
      code: 'bad-input',
      place: { file },
      value: read.name,
      problem: `is a ${read.device.kind} card`,
      mend: 'Give the card of a diode: .model NAME D(IS=3e-9 N=1.8).',
    })
  const mostA = o.cardBears === undefined ? usualDiodeA : positiveOption('--card-bears', o.cardBears, 'A')
  return { name: `yours, ${read.name}`, card: read.device.card, inSeries: 1, mostA }
}

function rangeNamed(tester: Tester, named: string): Range {
  const plain = (text: string): string => text.toLowerCase().replaceAll(/\s/g, '')
  const found = tester.ranges.find((r) => plain(r.id) === plain(named))
  if (found !== undefined) return found
  const ids = tester.ranges.map((r) => r.id)
  throw new FaultError({
    code: 'not-found',
    what: `range on ${tester.name}`,
    name: named,
    near: nearNames(named, ids),
    mend: `Its ranges: ${ids.join(', ')}.`,
  })
}

/** What a mistaken source puts on hands and cells; full scales alone put nothing new there. */
const exposureOf = (d: Drive, range: Range, m: Movement): Exposure =>
  d.kind === 'source'
    ? { voltageV: d.emfV, currentA: d.emfV / (d.ohm + (terminalOhm(range.circuit, m.coilOhm) ?? 0)) }
    : {}

function overloadOf(o: ProtectOptions): Drive {
  if (o.overload !== undefined && o.source !== undefined) throw clashFault('--overload', '--source')
  if (o.source === undefined)
    return {
      kind: 'full-scale',
      times: o.overload === undefined ? protectionDefaults.bears : positiveOption('--overload', o.overload, '1'),
    }
  const ohm = o.sourceOhm === undefined ? usualSourceOhm : optionValue('--source-ohm', o.sourceOhm, 'ohm').value
  if (!(ohm > 0))
    throw badOption('--source-ohm', o.sourceOhm ?? '', 'is not above 0', 'Every source has some: 0.5 ohm.')
  return { kind: 'source', emfV: positiveOption('--source', o.source, 'V'), ohm }
}

function temperaturesOf(o: ProtectOptions): readonly number[] {
  const [low, middle, high] = protectionDefaults.temperaturesC
  const [from, to] = temperatureSpan(o, [low, high])
  return [...new Set([from, ...(from < middle && middle < to ? [middle] : []), to])]
}
