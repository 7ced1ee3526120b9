import { FaultError } from '#core/fault'
import {
  type AnyFormula,
  contribution,
  covariance,
  type Origin,
  printPlain,
  printQuantity,
  printRounded,
  printValue,
  type Quantity,
  type Source,
  standardUncertainty,
  type Unit,
} from '#core/quantity'
import { interval95 } from './coverage.ts'

/** What one cause does to a result. */
export interface BudgetLine {
  readonly cause: string
  readonly label: string
  /** In the unit of the result, with its sign: how far the result moves when the cause moves by its standard uncertainty. */
  readonly contribution: number
  /** The same, printed. */
  readonly printed: string
  /** Part of the variance, percent; with correlated causes it may be negative, and they still add up to 100. */
  readonly percent: number
}

/** The formula of a derived value, as it stands and with the numbers put in. */
export interface FormulaWorking {
  readonly id: string
  readonly version: number
  readonly text: string
  readonly putIn: string
  readonly source: Source
}

/** All that is needed to check a result by hand. Plain JSON. */
export interface Working {
  readonly what: string
  readonly value: number
  readonly unit: Unit
  readonly standardUncertainty: number
  readonly interval95: readonly [low: number, high: number]
  /** The result as printed: 118(6). */
  readonly result: string
  /** How the value is known, as a sentence, where it is not derived. */
  readonly known?: string
  readonly formula?: FormulaWorking
  /** What went in, in the order of the formula. */
  readonly inputs: readonly { readonly symbol: string; readonly working: Working }[]
  /** Largest first. */
  readonly budget: readonly BudgetLine[]
}

/**
 * The shown working of a quantity: formula, numbers put in, result, budget, and the same for everything that went in.
 *
 * @throws {FaultError} `unknown-formula` where the derivation names one that is not among `formulas`
 */
export function working(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>): Working {
  const known = worked.get(formulas) ?? new WeakMap<Quantity, Working>()
  worked.set(formulas, known)
  const before = known.get(q)
  if (before !== undefined) return before
  const made = workOut(q, formulas)
  known.set(q, made)
  return made
}

/** What was worked out before: one reading goes into many parameters of a part, and is worked out once. */
const worked = new WeakMap<ReadonlyMap<string, AnyFormula>, WeakMap<Quantity, Working>>()

function workOut(q: Quantity, formulas: ReadonlyMap<string, AnyFormula>): Working {
  const own = {
    what: q.origin.what,
    value: q.value,
    unit: q.unit,
    standardUncertainty: standardUncertainty(q),
    interval95: interval95(q),
    result: printQuantity(q),
    budget: budgetLines(q),
  }
  if (q.origin.kind !== 'derived') return { ...own, known: howKnown(q.origin), inputs: [] }
  const f = formulas.get(q.origin.formula)
  if (f === undefined) throw new FaultError({ code: 'unknown-formula', id: q.origin.formula })
  const { inputs } = q.origin
  return {
    ...own,
    formula: { id: f.id, version: q.origin.version, text: f.text, putIn: putIn(f, inputs), source: f.source },
    inputs: Object.keys(f.inputs).map((name) => ({
      symbol: f.symbols[name]!,
      working: working(inputs[name]!, formulas),
    })),
  }
}

function howKnown(origin: Exclude<Origin, { kind: 'derived' }>): string {
  switch (origin.kind) {
    case 'read':
      return `read: ${origin.seen}`
    case 'stated':
      return origin.source === undefined ? 'stated' : `stated: ${sourceText(origin.source)}`
    case 'assumed':
      return `taken for granted: ${origin.why}`
  }
}

/** A source as people read it, with its standing where that is less than published. */
export function sourceText(s: Source): string {
  const where = s.where === undefined ? '' : `, ${s.where}`
  return s.standing === undefined || s.standing === 'published' ? s.title + where : `${s.title}${where} (${s.standing})`
}

/** The right side of a formula with each symbol replaced by its value. */
function putIn(f: AnyFormula, inputs: Readonly<Record<string, Quantity>>): string {
  const [left, ...right] = f.text.split(' = ') as [string, ...string[]]
  const bySymbol = new Map(Object.keys(f.inputs).map((name) => [f.symbols[name] as string, inputs[name]!]))
  const longestFirst = [...bySymbol.keys()].sort((a, b) => b.length - a.length).map(escaped)
  if (longestFirst.length === 0) return f.text
  const symbol = new RegExp(`(?<![\\w])(?:${longestFirst.join('|')})(?![\\w])`, 'g')
  const numbers = timesSigned(right.join(' = ')).replace(symbol, (s) => {
    const q = bySymbol.get(s)!
    const text = printPlain(q.value, q.unit, { digits: 6 })
    return q.value < 0 ? `(${text})` : text
  })
  return `${left} = ${numbers}`
}

/** A multiplication sign where a formula sets factors side by side, since numbers so set could not be told apart. */
const timesSigned = (text: string): string =>
  text.includes(' if ') ? text : text.replace(/(?<=[\w)])[ ](?=[\w(])/g, ' \u00d7 ')

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')

function budgetLines(q: Quantity): readonly BudgetLine[] {
  const variance = standardUncertainty(q) ** 2
  const lines = q.budget.map((t) => {
    const part = q.correlations === undefined ? contribution(t) ** 2 : covariance({ ...q, budget: [t] }, q)
    return {
      cause: t.cause,
      label: t.label,
      contribution: t.slope * t.u,
      printed: printValue(contribution(t), q.unit, { digits: 2 }),
      percent: variance === 0 ? 0 : (100 * part) / variance,
    }
  })
  return lines.sort((a, b) => Math.abs(b.contribution) - Math.abs(a.contribution))
}

/** The working as plain lines for a terminal: result, formula, numbers, budget, then what went in, indented. */
export function workingText(w: Working): readonly string[] {
  return [...mainLines(w), ...budgetText(w.budget), ...w.inputs.flatMap((i) => inputLines(i.symbol, i.working, '  '))]
}

function mainLines(w: Working): readonly string[] {
  const [low, high] = w.interval95.map((x) => printRounded(x, w.standardUncertainty, w.unit))
  const range = w.standardUncertainty === 0 ? [] : [`  95 % interval ${low} to ${high}`]
  if (w.formula === undefined) return [`${w.what}: ${w.result}`, `  ${w.known}`, ...range]
  return [
    `${w.what}: ${w.result}`,
    `  ${w.formula.text}`,
    `  ${w.formula.putIn}`,
    ...range,
    `  source: ${sourceText(w.formula.source)} [${w.formula.id}, version ${w.formula.version}]`,
  ]
}

function budgetText(lines: readonly BudgetLine[]): readonly string[] {
  const shown = lines.filter((l) => l.contribution !== 0)
  if (shown.length === 0) return []
  const wide = Math.max(...shown.map((l) => l.printed.length))
  return [
    '  budget:',
    ...shown.map((l) => `  ${l.printed.padStart(wide + 2)}  ${l.percent.toFixed(0).padStart(3)} %  ${l.label}`),
  ]
}

function inputLines(symbol: string, w: Working, indent: string): readonly string[] {
  const how = w.formula === undefined ? w.known : w.formula.putIn
  return [`${indent}${symbol} = ${w.result}  (${w.what}; ${how})`, ...below(w).map((line) => indent + line)]
}

/** What went into an input, set in once; kept, since the same input goes into many results. */
function below(w: Working): readonly string[] {
  const before = linesBelow.get(w)
  if (before !== undefined) return before
  const lines = w.inputs.flatMap((i) => inputLines(i.symbol, i.working, '  '))
  linesBelow.set(w, lines)
  return lines
}

const linesBelow = new WeakMap<Working, readonly string[]>()
