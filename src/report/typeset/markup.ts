/** A piece of finished HTML. Only `html` and the functions built on it make one; any other text is escaped. */
export interface Markup {
  readonly markup: string
}

/** What may stand in a template: text (escaped), a number, finished markup, a list of them, or nothing. */
export type Piece = string | number | Markup | undefined | null | false | readonly Piece[]

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Characters HTML does not allow, and lone halves of surrogate pairs; shown as a replacement mark. */
const unprintable =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the ones to take out
  /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f\ufdd0-\ufdef\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g

/** Text made safe for element content and for quoted attributes. */
export const escapeText = (text: string): string =>
  text.replace(unprintable, '\ufffd').replace(/[&<>"']/g, (c) => entities[c]!)

const pieceText = (p: Piece): string => {
  if (p === undefined || p === null || p === false) return ''
  if (typeof p === 'string') return escapeText(p)
  if (typeof p === 'number') return String(p)
  return 'markup' in p ? p.markup : p.map(pieceText).join('')
}

/**
 * Template tag that escapes everything put into it, unless it is markup already.
 *
 * @example html`<td>${'<b>'}</td>`.markup // '<td>&lt;b&gt;</td>'
 */
export function html(parts: TemplateStringsArray, ...pieces: readonly Piece[]): Markup {
  let text = parts[0]!
  for (let i = 0; i < pieces.length; i++) text += pieceText(pieces[i]) + parts[i + 1]!
  return { markup: text }
}

/** Pieces with something between them. */
export const joined = (pieces: readonly Piece[], between: Piece): Markup => ({
  markup: pieces.map(pieceText).join(pieceText(between)),
})

/** Markup written by the program itself: a style sheet, a drawing. Never for what people typed. */
export const trusted = (markup: string): Markup => ({ markup })
