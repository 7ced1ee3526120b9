import { html, joined, type Markup, trusted } from './markup.ts'

/** A letter symbol taken apart: `V_CE(sat)` is V with subscript CE(sat). */
export interface SymbolParts {
  readonly base: string
  readonly sub?: string
}

/** Words in parentheses that belong to a subscript; anything else in parentheses is a factor. */
const qualifiers = 'sat|off|on|th|to|pk|av|rms|min|max|eff'
const subscript = `(?:\\([A-Z]{1,3}\\))?(?:[A-Z0-9][A-Za-z0-9]*|[a-z]{1,2}\\d?|th[A-Z]+)(?:\\((?:${qualifiers})\\))?`
const oneSymbol = new RegExp(`^d?[A-Za-z\\u0370-\\u03ff]_${subscript}$`)
const anySymbol = new RegExp(
  `(?<![\\w])[A-Za-z\\u0370-\\u03ff]+_\\w*(?:\\([A-Z]{1,3}\\)\\w+)?(?:\\((?:${qualifiers})\\))?`,
  'g',
)

/** Splits a letter symbol; a text without a subscript is all base. */
export function symbolParts(symbol: string): SymbolParts {
  const cut = symbol.indexOf('_')
  if (cut <= 0 || cut === symbol.length - 1) return { base: symbol }
  return { base: symbol.slice(0, cut), sub: symbol.slice(cut + 1).replaceAll('_', '') }
}

/**
 * A letter symbol with a real subscript, its letter in italics (ISO 80000-1, 7.1).
 *
 * @example symbolHtml('I_CEO').markup // '<i>I</i><sub>CEO</sub>'
 */
export function symbolHtml(symbol: string): Markup {
  const { base, sub } = symbolParts(symbol)
  return sub === undefined ? html`<i>${base}</i>` : html`<i>${base}</i><sub>${sub}</sub>`
}

/** A letter symbol as plain text, for titles and descriptions that take no markup: `I CEO`. */
export const symbolText = (symbol: string): string => symbol.replace('_', ' ').replaceAll('_', '')

/** A letter symbol for inside an SVG `text`: subscript lowered and small, and what follows back on the line. */
export function symbolSvg(symbol: string): Markup {
  const { base, sub } = symbolParts(symbol)
  if (sub === undefined) return html`<tspan font-style="italic">${base}</tspan>`
  return html`<tspan font-style="italic">${base}</tspan><tspan dy="3" font-size="80%">${sub}</tspan>${backOnLine}`
}

/** A subscript lowers all that follows; a character without width brings it back. */
const backOnLine = trusted('<tspan dy="-3">\u200b</tspan>')

/** A sentence in which every letter symbol is set as one: "where I_CEO was read at V_CE 4.5 V". */
export const proseHtml = (sentence: string): Markup => replaceSymbols(sentence, symbolHtml)

/** The same inside an SVG `text`. */
export const proseSvg = (sentence: string): Markup => replaceSymbols(sentence, symbolSvg)

function replaceSymbols(sentence: string, set: (symbol: string) => Markup): Markup {
  const pieces: (string | Markup)[] = []
  let from = 0
  for (const m of sentence.matchAll(anySymbol)) {
    if (!isTradeSymbol(m[0])) continue
    pieces.push(sentence.slice(from, m.index), set(m[0]))
    from = m.index + m[0].length
  }
  pieces.push(sentence.slice(from))
  return joined(pieces, '')
}

/** Whether a word with an underscore is a letter symbol, and not a file or column name: one letter, and a subscript. */
const isTradeSymbol = (word: string): boolean => oneSymbol.test(word)
