import { type Command, Option } from 'commander'
import { fitDocument, fitFiles } from '#bench'
import { FaultError } from '#core/fault'
import { type CurveFit, curveExampleCsv, type FitKind, fitCard, fitKinds } from '#core/fit'
import type { RobustKind } from '#core/numeric'
import { columnPairs, curveFiles, curveKind, pairs } from './curve-files.ts'
import { polarityText } from './curve-lines.ts'
import { badOption, deviceTemperature, gather, optionValue, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { block } from './say.ts'
import { tableLines, wrapped } from './table.ts'
import { writeOut } from './write-out.ts'

interface FitOptions {
  readonly temperature?: string
  readonly space?: 'linear' | 'log'
  readonly robust?: RobustKind
  readonly relative?: string
  readonly fix?: readonly string[]
  readonly column?: readonly string[]
  readonly card?: string
  readonly json?: boolean
  readonly example?: boolean
}

export function define(command: Command): void {
  command
    .argument('[kind]', `what the part is: ${fitKinds.join(', ')}`)
    .argument('[files...]', 'curves as CSV, or folders of them; - reads standard input')
  withJson(command)
    .option('--temperature <temperature>', 'of the part during the sweep, such as 25')
    .addOption(
      new Option('--space <space>', 'hold currents, or their logarithms, against the law').choices(['linear', 'log']),
    )
    .addOption(new Option('--robust <rule>', 'let readings far off pull less').choices(['none', 'huber', 'tukey']))
    .option('--relative <part>', 'uncertainty of a current as a part of it, such as 1 %; else by the scatter')
    .option('--fix <symbol=value>', 'hold a parameter; may stand again', gather)
    .option('--column <header=symbol>', 'what a column with another header holds; may stand again', gather)
    .option('--card <file>', 'write .model cards')
    .option('--example', 'print a curve that works')
    .action((typed: string | undefined, files: readonly string[], o: FitOptions) =>
      fitNamed(kindOf(typed, o), files, o),
    )
}

/** The kind that was typed; an example is that of a diode where none was. */
function kindOf(typed: string | undefined, o: FitOptions): FitKind {
  if (typed === undefined && o.example === true) return 'diode'
  if (typed === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'No kind of part was named',
      mend: `Write one of ${fitKinds.join(', ')} before the file.`,
    })
  return curveKind(typed)
}

function fitNamed(kind: FitKind, named: readonly string[], o: FitOptions): void {
  if (o.example === true) return void process.stdout.write(curveExampleCsv[kind])
  const files = curveFiles(named)
  const fits = fitFiles({
    kind,
    files,
    columns: columnPairs(o.column),
    fix: fixedValues(o.fix ?? []),
    ...temperatureOf(o.temperature),
    ...(o.space === undefined ? {} : { space: o.space }),
    ...(o.robust === undefined ? {} : { robust: o.robust }),
    ...(o.relative === undefined ? {} : { relative: relativeOf(o.relative) }),
    ...(process.stderr.isTTY ? { onFit: tell } : {}),
  })
  if (o.card !== undefined) writeCards(o.card, fits)
  if (o.json === true) printJson(fitDocument(fits))
  else printLines(fits.length === 1 ? fitLines(fits[0]!, o) : drawerLines(fits))
}

function tell(done: number, all: number): boolean {
  if (all > 20 && (done % 20 === 0 || done === all))
    process.stderr.write(`\r${done} of ${all} curves${done === all ? '\n' : ''}`)
  return true
}

const fixedValues = (all: readonly string[]): Readonly<Record<string, number>> =>
  Object.fromEntries(
    Object.entries(pairs('--fix', all, 'Write for example n=1.')).map(([s, v]) => [s, numberOf('--fix', v)]),
  )

function numberOf(option: string, text: string): number {
  const value = Number(text)
  if (Number.isFinite(value)) return value
  throw badOption(option, text, 'is not a number', 'Write it in SI units, such as I_S=2e-9.')
}

function relativeOf(text: string): number {
  const { value } = optionValue('--relative', text, '1')
  if (value > 0 && value < 1) return value
  throw badOption('--relative', text, 'is not a part of a reading', 'Write for example 1 %.')
}

const temperatureOf = (text: string | undefined): { temperatureC?: number } =>
  text === undefined ? {} : { temperatureC: deviceTemperature('--temperature', text, 'part') }

/** A card for each fit, in one file. */
function writeCards(file: string, fits: readonly CurveFit[]): void {
  const date = new Date().toISOString().slice(0, 10)
  const cards = fits.map((f, i) => fitCard(f, cardName(f.name, i), date))
  writeOut(file, cards.join('\n'))
}

/** A name as cards take it: letters and figures, a letter first. */
function cardName(name: string, index: number): string {
  const plain = name
    .replace(/^.*[/\\]/, '')
    .replace(/\.csv$/i, '')
    .replaceAll(/[^a-z0-9]+/gi, '_')
    .replaceAll(/^_+|_+$/g, '')
  return plain === '' ? `part${index + 1}` : /^[a-z]/i.test(plain) ? plain : `x${plain}`
}

const figure = (x: number, digits = 5): string => {
  if (x === 0) return '0'
  return Math.abs(x) >= 1e-3 && Math.abs(x) < 1e6
    ? String(Number(x.toPrecision(digits)))
    : Number(x.toPrecision(digits)).toExponential()
}

const unitOf = (unit: string): string => (unit === '1' ? '' : unit)

function fitLines(f: CurveFit, o: FitOptions): readonly string[] {
  const rows = f.parameters
    .filter((p) => p.standing === 'fitted')
    .map((p) => [
      p.symbol,
      figure(p.value),
      p.u === undefined ? '' : figure(p.u, 2),
      unitOf(p.unit),
      p.low === undefined ? '' : `${figure(p.low, 4)} to ${figure(p.high!, 4)}`,
    ])
  const held = f.parameters
    .filter((p) => p.standing === 'held')
    .flatMap((p) => wrapped(`${p.why}.`, `  ${p.symbol} ${heldAt(p)}: `))
  const scatter = f.scatter === undefined ? '' : ` Readings scatter by ${figure(100 * f.scatter, 2)} % about the law.`
  const assumed = o.temperature === undefined ? ['The part is taken to be at 25 °C: give --temperature.'] : []
  return [
    `${f.name}: ${f.kind}${polarityText(f)}, ${f.points} readings at ${f.temperatureC} °C`,
    '',
    ...tableLines(['parameter', '>value', '>u', 'unit', '95 % interval'], rows),
    ...block('Held:', held),
    '',
    `chi-square ${figure(f.chiSquare, 4)} with ${f.dof} degrees of freedom.${scatter}`,
    ...block('Correlation:', correlationLines(f)),
    ...block(
      'To know:',
      [...assumed, ...f.notes].flatMap((n) => wrapped(n, '  ')),
    ),
  ]
}

/** Knees and resistances of 0 are not there. */
const heldAt = (p: CurveFit['parameters'][number]): string =>
  p.value === 0 ? 'left out' : `held at ${figure(p.value, 4)} ${unitOf(p.unit)}`.trimEnd()

function correlationLines(f: CurveFit): readonly string[] {
  const { symbols, matrix } = f.correlation
  if (symbols.length < 2) return []
  return tableLines(
    ['', ...symbols.map((s) => `>${s}`)],
    matrix.map((row, i) => [symbols[i]!, ...row.map((c, j) => (j > i ? '' : c.toFixed(3)))]),
  )
}

/** A drawer of parts, a line each. */
function drawerLines(fits: readonly CurveFit[]): readonly string[] {
  const symbols = [...new Set(fits.flatMap((f) => f.parameters.map((p) => p.symbol)))]
  const cell = (f: CurveFit, s: string): string => {
    const p = f.parameters.find((q) => q.symbol === s)
    return p === undefined ? '' : p.standing === 'held' ? '-' : figure(p.value, 4)
  }
  return tableLines(
    ['part', ...symbols.map((s) => `>${s}`), '>chi-square', '>dof'],
    fits.map((f) => [f.name, ...symbols.map((s) => cell(f, s)), figure(f.chiSquare, 4), String(f.dof)]),
  )
}
