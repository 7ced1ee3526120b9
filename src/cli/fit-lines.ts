import type { CurveFit, FittedParameter } from '#core/fit'
import { polarityText } from './curve-lines.ts'
import { block } from './say.ts'
import { tableLines, wrapped } from './table.ts'

const figure = (x: number, digits = 5): string => {
  if (x === 0) return '0'
  return Math.abs(x) >= 1e-3 && Math.abs(x) < 1e6
    ? String(Number(x.toPrecision(digits)))
    : Number(x.toPrecision(digits)).toExponential()
}

const unitOf = (unit: string): string => (unit === '1' ? '' : unit)

/** Scatter about the law, as a part of a current, that hints at a slip in the file rather than at the part. */
const farOff = 0.25

/** One fit: parameters, what was held and why, how the readings lie about the law. */
export function fitLines(f: CurveFit, isTold: boolean): readonly string[] {
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
    .flatMap((p) => wrapped(`${p.why}.${limitText(p)}`, `  ${p.symbol} ${heldAt(p)}: `))
  const far =
    f.scatter !== undefined && f.scatter > farOff
      ? ['They lie far off the law: see that the columns, their units and the kind of part are right.']
      : []
  const scatter = f.scatter === undefined ? '' : ` Readings scatter by ${figure(100 * f.scatter, 2)} % about the law.`
  const assumed = isTold ? [] : ['The part is taken to be at 25 °C: give --temperature.']
  return [
    `${f.name}: ${f.kind}${polarityText(f)}, ${f.points} readings at ${f.temperatureC} °C`,
    '',
    ...tableLines(['parameter', '>value', '>u', 'unit', '95 % interval'], rows),
    ...block('Held:', held),
    '',
    `chi-square ${figure(f.chiSquare, 4)} with ${f.dof} ${f.dof === 1 ? 'degree' : 'degrees'} of freedom.${scatter}`,
    ...far,
    ...block('Doubt comes from:', f.parameters.flatMap(causeLines)),
    ...block('Correlation:', correlationLines(f)),
    ...block(
      'To know:',
      [...assumed, ...f.notes].flatMap((n) => wrapped(n, '  ')),
    ),
  ]
}

/** How large or small it may be for all that the readings say. */
function limitText({ limit, unit }: FittedParameter): string {
  if (limit === undefined) return ''
  const [words, value] = 'atMost' in limit ? ['at most', limit.atMost] : ['at least', limit.atLeast]
  return ` For all the readings say it is ${words} ${figure(value, 2)} ${unitOf(unit)}`.trimEnd().concat(' (95 %).')
}

/** Causes that are named of a parameter, the largest first. */
const mostCauses = 3

function causeLines({ symbol, u, budget }: FittedParameter): readonly string[] {
  if (budget === undefined || u === undefined || !(u > 0)) return []
  const shares = budget
    .map((t) => [t.label, ((t.slope * t.u) / u) ** 2] as const)
    .filter(([, share]) => share > 0.005)
    .sort((a, b) => b[1] - a[1])
    .slice(0, mostCauses)
  return wrapped(shares.map(([label, share]) => `${label} ${(100 * share).toFixed(0)} %`).join(', '), `  ${symbol}: `)
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
export function drawerLines(fits: readonly CurveFit[]): readonly string[] {
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
