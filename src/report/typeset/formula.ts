import { html, type Markup } from './markup.ts'
import { proseHtml, symbolHtml } from './symbol.ts'

const openers = '(['
const closers = ')]'

/** Where characters stand outside all brackets. */
function topLevel(text: string, isWanted: (c: string, at: number) => boolean): readonly number[] {
  const found: number[] = []
  let depth = 0
  for (let i = 0; i < text.length; i++) {
    const c = text[i]!
    if (openers.includes(c)) depth += 1
    else if (closers.includes(c)) depth -= 1
    else if (depth === 0 && isWanted(c, i)) found.push(i)
  }
  return found
}

/** A fraction that can be stacked: one division at the top level, and nothing there that is added to it. */
function fraction(text: string): readonly [above: string, below: string] | undefined {
  const strokes = topLevel(text, (c) => c === '/')
  if (strokes.length !== 1) return undefined
  const isSum = topLevel(text, (c, i) => (c === '+' || c === '-' || c === '\u2212') && text[i - 1] === ' ').length > 0
  const above = bare(text.slice(0, strokes[0]).trim())
  const below = bare(text.slice(strokes[0]! + 1).trim())
  if (isSum || above === '' || below === '') return undefined
  return [above, below]
}

/** Takes brackets off that hold the whole text: in a stacked fraction the bar does their work. */
function bare(text: string): string {
  if (!text.startsWith('(') || !text.endsWith(')')) return text
  return topLevel(text, () => true).length === 0 && isOnePair(text) ? text.slice(1, -1) : text
}

function isOnePair(text: string): boolean {
  let depth = 0
  for (let i = 0; i < text.length - 1; i++) {
    depth += text[i] === '(' ? 1 : text[i] === ')' ? -1 : 0
    if (depth === 0) return false
  }
  return true
}

/** What an exponent is: a bracket with all it holds, or one number or letter. */
function exponentEnd(text: string, from: number): number {
  if (text[from] !== '(') return from + (/^[\u2212-]?[\w.]+/.exec(text.slice(from))?.[0].length ?? 0)
  let depth = 0
  for (let i = from; i < text.length; i++) {
    depth += text[i] === '(' ? 1 : text[i] === ')' ? -1 : 0
    if (depth === 0) return i + 1
  }
  return text.length
}

/** Signs as a book sets them: a true minus and a times sign. */
const bookSigns = (text: string): string =>
  text.replace(/(^|[\s(=])-(?=[\s\d(A-Za-z])/g, '$1\u2212').replace(/ \* /g, ' \u00d7 ')

type Setter = (text: string) => Markup

/** A line with its powers raised; `set` does the letters. */
function setLine(text: string, set: Setter): Markup {
  const at = text.indexOf('^')
  if (at < 0) return set(bookSigns(text))
  const end = exponentEnd(text, at + 1)
  const raised = setLine(bare(text.slice(at + 1, end)), set)
  return html`${set(bookSigns(text.slice(0, at)))}<sup>${raised}</sup>${setLine(text.slice(end), set)}`
}

function setSide(side: string, set: Setter): Markup {
  const parts = fraction(side)
  if (parts === undefined) return setLine(side, set)
  const [above, below] = parts
  return html`<span class="frac"><span>${setLine(above, set)}</span><span class="stroke"> / </span><span>${setLine(below, set)}</span></span>`
}

function setFormula(text: string, set: Setter): Markup {
  const equals = topLevel(text, (c, i) => c === '=' && text[i - 1] === ' ')
  const cuts = [-1, ...equals, text.length]
  const sides = cuts.slice(1).map((end, i) => text.slice(cuts[i]! + 1, end).trim())
  return html`<span class="formula">${sides.map((s, i) => html`${i > 0 && ' = '}${setSide(s, set)}`)}</span>`
}

/** A lone letter is a variable, a letter and a digit one with a subscript: `k`, `V2`; words such as `ln` are not. */
const variable = /(?<![\w.])([A-Za-z])(\d?)(?![\w])/g

function lawLetters(text: string): Markup {
  const marked = text.replace(variable, (_, letter: string, digit: string) => `\u0001${letter}_${digit}\u0001`)
  const pieces = marked.split('\u0001')
  return html`${pieces.map((p, i) => (i % 2 === 0 ? proseHtml(p) : symbolHtml(p.endsWith('_') ? p.slice(0, -1) : p)))}`
}

/**
 * A formula set as in a book: real subscripts, variables in italics, a stacked fraction where a side is one division.
 * Copied as text it still reads with a stroke.
 *
 * @example formulaHtml('h_FE = (I_C - I_CEO) / I_B')
 */
export const formulaHtml = (text: string): Markup => setFormula(text, lawLetters)

/** A number with its unit, as it stands among numbers put in. */
const value =
  '[\\d.]+(?:e-?\\d+)?(?: (?:1/|[fpn\u00b5mkMGT])?(?:[AVSWsFKm](?:/[KW])?|Hz|\u03a9|\u00b0C|div|rad|kg)(?![\\w/]))?'
const factor = new RegExp(`(?:${value}|\\))(?:\\^[\\w.]+)?|\\b[A-Za-z]\\w*`, 'g')

/** Factors side by side stand apart as symbols do not when they are numbers: put a times sign between. */
const timesSigns = (text: string): string =>
  text.replace(factor, (found, at: number) =>
    /^ [\d(A-Za-z]/.test(text.slice(at + found.length, at + found.length + 2)) ? `${found} \u00d7` : found,
  )

/** A formula with its numbers put in; letters there are units and stay upright. */
export const putInHtml = (text: string): Markup => setFormula(timesSigns(text), proseHtml)
