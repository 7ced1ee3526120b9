import { type Judged, parameterEntry, partVerdict, type Reduced, verdictsByPart } from '#bench'
import type { Conditions, Limit } from '#core/device'
import type { Verdict } from '#core/judge'
import { printPlain, printQuantity, type Unit } from '#core/quantity'
import type { Parameter, PartResult } from '#core/reduce'
import type { Caution } from '#core/sheet'
import { oncePer } from '#core/text'
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

/** Of the limits of a type, which stand in the verdicts of every part. */
const limitSaid = oncePer((limit: Limit) => limitText(limit))
const limitConditions = oncePer((limit: Limit) => conditionsText(limit.at))

const marks = { conforms: '=', 'does not conform': 'x', undecided: '?', 'not comparable': '-' } as const

/** A verdict with its mark, so that it reads without colour. */
export const verdictText = (word: keyof typeof marks): string => `${marks[word]} ${word}`

const stateText = (r: PartResult): string => (r.state === 'measured' ? '' : `${r.state}: nothing more was read`)

/** How much of a result to print. */
export interface Detail {
  /** Everything that was worked out, and every limit; else what people look at first. */
  readonly all?: boolean
}

/** Worked out on the way and of use to few: shown with `--all`. */
const byTheWay: readonly string[] = ['P', 'T_J', 'g_m', 'h_FE0(I_CBO)', 'h_FE(I_CEO)']

/** A table of parameters, a line each, with the value brought to 25 degC beside the measured one. */
export function parameterLines(reduced: Reduced, detail: Detail = {}): readonly string[] {
  const rows = reduced.results.flatMap((r) => {
    if (r.state !== 'measured') return [[r.part, r.type ?? '', '', '', '', stateText(r)]]
    const measured = r.parameters.filter((p) => p.standing === 'measured')
    const shown = detail.all === true ? measured : measured.filter((p) => !byTheWay.includes(p.symbol))
    return shown.map((p) => {
      const at25 = r.parameters.find(
        (o) => o !== p && o.standing !== 'measured' && o.symbol === p.symbol && samePoint(o, p),
      )
      return [
        p.part,
        p.type ?? '',
        p.symbol,
        printQuantity(p.quantity),
        at25 === undefined ? '' : printQuantity(at25.quantity),
        conditionsText(read(p.conditions)),
      ]
    })
  })
  return tableLines(['part', 'type', 'parameter', '>value', '>at 25 °C', 'measured at'], rows)
}

const samePoint = (a: Parameter, b: Parameter): boolean => a.points.join() === b.points.join()

/** Conditions without the base current, which follows from the gain. */
const read = ({ I_B: _, ...at }: Conditions): Conditions => at

/** A table of verdicts, a line each; limits that could not be compared only with `all`. */
export function verdictLines(judged: Judged, detail: Detail = {}): readonly string[] {
  const byPart = verdictsByPart(judged)
  const rows = judged.results.flatMap((r) => {
    if (r.state !== 'measured')
      return [[r.part, r.type ?? '', r.state, '', '', verdictText('does not conform'), '', '']]
    const own = byPart.get(r.part)!
    const shown = detail.all === true ? own : own.filter((v) => v.verdict !== 'not comparable')
    return shown.map((v) => [r.part, r.type ?? '', ...verdictCells(v)])
  })
  return tableLines(['part', 'type', 'parameter', '>value', 'limit', 'verdict', '>sure', 'limit holds at'], rows)
}

function verdictCells(v: Verdict): readonly string[] {
  return [
    v.symbol,
    v.compared === undefined ? '' : printQuantity(v.compared),
    limitSaid(v.limit),
    verdictText(v.verdict),
    sureText(v),
    limitConditions(v.limit),
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
  const byPart = verdictsByPart(judged)
  const rows = judged.results.map((r) => {
    const own = byPart.get(r.part)!
    const word = partVerdict(r, own)
    return [r.part, r.type ?? 'unknown', word === undefined ? 'not judged' : verdictText(word), becauseText(r, own)]
  })
  return tableLines(['part', 'type', 'verdict', 'because of'], rows)
}

function becauseText(r: PartResult, verdicts: readonly Verdict[]): string {
  if (r.state !== 'measured') return r.state === 'short' ? 'a short' : 'an open junction'
  const telling = (word: Verdict['verdict']): string | undefined => {
    const found = [...new Set(verdicts.filter((v) => v.verdict === word).map((v) => v.symbol))]
    return found.length === 0 ? undefined : found.join(', ')
  }
  return telling('does not conform') ?? telling('undecided') ?? ''
}

/** Why parts do not conform or are undecided, and what would settle it. */
export const verdictReasons = (judged: Judged): readonly string[] =>
  judged.verdicts
    .filter((v) => v.verdict === 'does not conform' || v.verdict === 'undecided')
    .flatMap((v) => [
      ...wrapped(`${v.symbol} ${v.verdict}. ${v.why}`, `${v.part}  `),
      ...(v.settle === undefined ? [] : wrapped(v.settle, '    to settle it: ')),
      ...wrapped(v.source, '    limit: '),
    ])

/** Limits that could not be compared, each once, with the parts it concerns. */
export function incomparableLines(judged: Judged): readonly string[] {
  const groups = new Map<string, Verdict[]>()
  const types = new Map(judged.results.map((r) => [r.part, r.type ?? '']))
  for (const v of judged.verdicts) {
    if (v.verdict !== 'not comparable') continue
    const type = types.get(v.part) ?? ''
    const at = limitConditions(v.limit)
    const key = `${type} ${v.symbol} ${limitSaid(v.limit)}${at === '' ? '' : ` at ${at}`}`
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [v])
    else group.push(v)
  }
  return [...groups].flatMap(([key, all]) => {
    const isUnread = all.every((v) => Object.keys(v.conditions).length === 0)
    return wrapped(
      `${key}: ${isUnread ? 'not measured' : `${tags(all.map((v) => v.part))}. ${all[0]!.settle ?? all[0]!.why}`}`,
      '  ',
    )
  })
}

const tags = (parts: readonly string[]): string =>
  parts.length > 6 ? `${parts.slice(0, 5).join(', ')} and ${parts.length - 5} more` : parts.join(', ')

/** What the numbers themselves show that is odd, each kind once with the parts it concerns, and notes. */
export function doubtLines(reduced: Reduced): readonly string[] {
  const groups = new Map<string, { readonly say: string; readonly parts: Set<string> }>()
  const add = (key: string, part: string, say: string): void => {
    const known = groups.get(key)
    if (known === undefined) groups.set(key, { say, parts: new Set([part]) })
    else known.parts.add(part)
  }
  for (const r of reduced.results) {
    for (const d of r.doubts) add(`part ${d.code}`, r.part, d.say)
    for (const p of r.parameters) for (const d of p.doubts) add(`${d.code} ${p.symbol}`, r.part, d.say)
    if (r.pair !== undefined) add(`pair ${r.pair.word}`, r.part, r.pair.say)
  }
  const lines = [...groups.values()].map(({ say, parts }) => {
    const [first, ...others] = parts
    return `${first}: ${say}${others.length === 0 ? '' : ` The same holds for ${tags(others)}.`}`
  })
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

/** A block under a heading; nothing where the block is empty. */
export const block = (heading: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [] : ['', heading, ...lines]

export { printPercent as percent } from '#core/quantity'

/** Cautions that go with a piece of work; nothing where there are none. */
export const cautionLines = (cautions: readonly Caution[]): readonly string[] =>
  block(
    cautions.length === 0 ? '' : 'Take care:',
    cautions.flatMap((c) => wrapped(`${c.hazard}: ${c.caution}`, '! ')),
  )
