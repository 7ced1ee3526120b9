import { type Judged, parameterEntry, partVerdict, type Reduced } from '#bench'
import type { Conditions, Limit } from '#core/device'
import type { Verdict } from '#core/judge'
import { printPlain, printQuantity, type Unit } from '#core/quantity'
import type { Parameter, PartResult } from '#core/reduce'
import { tableLines, wrapped } from './table.ts'

const conditionUnit = (symbol: string): Unit =>
  symbol === 'T' ? 'degC' : symbol.startsWith('I') ? 'A' : symbol.startsWith('V') ? 'V' : symbol === 'f' ? 'Hz' : 'ohm'

/** Conditions as people read them: `I_C 10 mA, V_CE 1.4 V`. */
export const conditionsText = (at: Conditions): string =>
  Object.entries(at)
    .map(([symbol, value]) => `${symbol} ${printPlain(value, conditionUnit(symbol), { digits: 3 })}`)
    .join(', ')

/** A limit as people read it: `40 to 200`, `at most 6 uA`. */
export function limitText(limit: Pick<Limit, 'min' | 'max' | 'unit'>): string {
  const value = (x: number): string => printPlain(x, limit.unit as Unit, { digits: 4 })
  if (limit.min !== undefined && limit.max !== undefined) return `${value(limit.min)} to ${value(limit.max)}`
  if (limit.max !== undefined) return `at most ${value(limit.max)}`
  return limit.min === undefined ? 'typical only' : `at least ${value(limit.min)}`
}

const marks = { conforms: '=', 'does not conform': 'x', undecided: '?', 'not comparable': '-' } as const

/** A verdict with its mark, so that it reads without colour. */
export const verdictText = (word: keyof typeof marks): string => `${marks[word]} ${word}`

const stateText = (r: PartResult): string => (r.state === 'measured' ? '' : `${r.state}: nothing more was read`)

/** A table of parameters, a line each. */
export function parameterLines(reduced: Reduced): readonly string[] {
  const rows = reduced.results.flatMap((r) =>
    r.state === 'measured'
      ? r.parameters.map((p) => [
          p.part,
          p.type ?? '',
          p.symbol,
          printQuantity(p.quantity),
          temperatureText(p),
          conditionsText(p.conditions),
        ])
      : [[r.part, r.type ?? '', '', '', '', stateText(r)]],
  )
  return tableLines(['part', 'type', 'parameter', '>value', '>at', 'measured at'], rows)
}

const temperatureText = (p: Parameter): string =>
  p.standing === 'measured' ? printPlain(p.temperatureC, 'degC', { digits: 3 }) : '25 °C *'

/** A table of verdicts, a line each. */
export function verdictLines(judged: Judged): readonly string[] {
  const rows = judged.results.flatMap((r) => {
    if (r.state !== 'measured')
      return [[r.part, r.type ?? '', '', '', '', verdictText('does not conform'), '', r.state]]
    const own = judged.verdicts.filter((v) => v.part === r.part)
    return own.map((v) => [r.part, r.type ?? '', ...verdictCells(v)])
  })
  return tableLines(['part', 'type', 'parameter', '>value', 'limit', 'verdict', '>sure', 'limit holds at'], rows)
}

function verdictCells(v: Verdict): readonly string[] {
  return [
    v.symbol,
    v.compared === undefined ? '' : printQuantity(v.compared),
    limitText(v.limit),
    verdictText(v.verdict),
    sureText(v),
    conditionsText(v.limit.at),
  ]
}

/** How sure the verdict is: the probability of what it says. */
function sureText(v: Verdict): string {
  if (v.probability === undefined) return ''
  const p = v.verdict === 'does not conform' ? 1 - v.probability : v.probability
  const percent = 100 * p
  return percent > 99.9 ? '>99.9 %' : percent < 0.1 ? '<0.1 %' : `${percent.toFixed(percent > 99 ? 1 : 0)} %`
}

/** One line a part: the word for the whole of it. */
export function partLines(judged: Judged): readonly string[] {
  const rows = judged.results.map((r) => {
    const own = judged.verdicts.filter((v) => v.part === r.part)
    const word = partVerdict(r, own)
    return [r.part, r.type ?? 'unknown', word === undefined ? 'not judged' : verdictText(word), becauseText(r, own)]
  })
  return tableLines(['part', 'type', 'verdict', 'because'], rows)
}

function becauseText(r: PartResult, verdicts: readonly Verdict[]): string {
  if (r.state !== 'measured') return r.state === 'short' ? 'shorted' : 'open'
  const telling = (word: Verdict['verdict']): string | undefined => {
    const found = [...new Set(verdicts.filter((v) => v.verdict === word).map((v) => v.symbol))]
    return found.length === 0 ? undefined : found.join(', ')
  }
  return telling('does not conform') ?? telling('undecided') ?? ''
}

/** Why and how verdicts came out as they did: what would settle them, what stood in the way. */
export function verdictReasons(judged: Judged): readonly string[] {
  return judged.verdicts
    .filter((v) => v.verdict !== 'conforms')
    .flatMap((v) => [
      ...wrapped(`${v.part} ${v.symbol} ${limitText(v.limit)}: ${v.verdict}. ${v.why}`),
      ...(v.settle === undefined ? [] : wrapped(v.settle, '    ')),
      ...wrapped(`limit: ${v.source}`, '    '),
    ])
}

/** What the numbers themselves show that is odd, and notes. */
export function doubtLines(reduced: Reduced): readonly string[] {
  const lines = reduced.results.flatMap((r) => [
    ...r.doubts.map((d) => `${r.part}: ${d.say}`),
    ...r.parameters.flatMap((p) => p.doubts.map((d) => `${r.part} ${p.symbol}: ${d.say}`)),
    ...(r.pair === undefined ? [] : [`${r.part}: ${r.pair.say}`]),
  ])
  return [...new Set([...lines, ...reduced.notes])].flatMap((line) => wrapped(line, '  '))
}

/** Workings of the parameters, all or those of one part. */
export function workingLines(reduced: Reduced, part?: string): readonly string[] {
  return reduced.results
    .filter((r) => part === undefined || r.part === part)
    .flatMap((r) =>
      r.parameters.flatMap((p) => [`${r.part}  ${p.symbol}`, ...parameterEntry(p).working.map((l) => `  ${l}`), '']),
    )
}
