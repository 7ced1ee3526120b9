/**
 * Splits comma-, semicolon- or tab-separated text into records (RFC 4180, with blanks round cells and any line end).
 *
 * A splitter of our own: the browser build of the usual library needs 2 to 4 s for 100,000 rows of 8 columns here,
 * brings a stand-in for Node's Buffer, and its types ask for Node's.
 */

/** One record of a table as it stands in the text. */
export interface RawRecord {
  /** Row number, counting from 1; blank and comment rows count too, a cell with line breaks does not. */
  readonly row: number
  readonly cells: readonly string[]
  /** Which cells stood in quotes; left out where none did. */
  readonly quoted?: readonly boolean[]
}

export interface SplitFault {
  readonly row: number
  /** Cell in which it is, from 0. */
  readonly cell: number
  readonly value: string
  readonly problem: string
  readonly mend: string
}

export interface Split {
  readonly records: readonly RawRecord[]
  readonly faults: readonly SplitFault[]
}

/** A row that begins with `#` and a blank is a comment; `#12` may be a part's tag. */
const isComment = (line: string): boolean => /^\s*#(?:[\s#]|$)/.test(line)

/** Splits a whole text. Blank rows, rows of nothing but delimiters, and comments are passed over but counted. */
export function splitCsv(text: string, delimiter: string): Split {
  const records: RawRecord[] = []
  const faults: SplitFault[] = []
  let row = 0
  let at = 0
  while (at < text.length) {
    row++
    const end = lineEnd(text, at)
    const line = text.slice(at, text.charCodeAt(end - 1) === 13 && end > at ? end - 1 : end)
    if (isComment(line)) {
      at = end + 1
      continue
    }
    if (!line.includes('"')) {
      const cells = line.split(delimiter)
      for (let i = 0; i < cells.length; i++) cells[i] = cells[i]!.trim()
      if (cells.some((c) => c !== '')) records.push({ row, cells })
      at = end + 1
      continue
    }
    const quoted = splitQuoted(text, at, delimiter, row)
    if (quoted.fault !== undefined) faults.push(quoted.fault)
    if (quoted.record.cells.some((c) => c !== '')) records.push(quoted.record)
    at = quoted.next
  }
  return { records, faults }
}

/** Offset of the line feed (or a lone carriage return) that ends the line, or the end of the text. */
function lineEnd(text: string, at: number): number {
  const feed = text.indexOf('\n', at)
  return feed === -1 ? text.length : feed
}

interface Cell {
  readonly text: string
  readonly isQuoted: boolean
  /** Offset of the delimiter or line end after it. */
  readonly end: number
  readonly trouble?: { readonly problem: string; readonly mend: string }
}

function splitQuoted(
  text: string,
  start: number,
  delimiter: string,
  row: number,
): { readonly record: RawRecord; readonly next: number; readonly fault?: SplitFault } {
  const cells: string[] = []
  const quoted: boolean[] = []
  let fault: SplitFault | undefined
  let at = start
  for (;;) {
    const cell = readCell(text, at, delimiter)
    if (cell.trouble !== undefined && fault === undefined)
      fault = { row, cell: cells.length, value: cell.text.slice(0, 40).split('\n')[0]!.trim(), ...cell.trouble }
    cells.push(cell.text)
    quoted.push(cell.isQuoted)
    at = cell.end + 1
    if (text[cell.end] !== delimiter) break
  }
  const record = { row, cells, quoted }
  return fault === undefined ? { record, next: at } : { record, next: at, fault }
}

function readCell(text: string, start: number, delimiter: string): Cell {
  const stop = lineEnd(text, start)
  let at = start
  while (at < stop && text[at] !== delimiter && (text[at] === ' ' || text[at] === '\t')) at++
  if (text[at] !== '"') {
    const d = text.indexOf(delimiter, start)
    const end = d === -1 || d > stop ? stop : d
    return { text: text.slice(start, end).trim(), isQuoted: false, end }
  }
  const close = closingQuote(text, at)
  if (close === -1) {
    const trouble = { problem: 'opens with a quote that is never closed', mend: 'Close it, or take the quote out.' }
    return { text: text.slice(at + 1, stop).trim(), isQuoted: true, end: stop, trouble }
  }
  const body = text.slice(at + 1, close).replaceAll('""', '"')
  const lastStop = lineEnd(text, close)
  const d = text.indexOf(delimiter, close)
  const end = d === -1 || d > lastStop ? lastStop : d
  if (text.slice(close + 1, end).trim() === '') return { text: body.trim(), isQuoted: true, end }
  const trouble = { problem: 'goes on after its closing quote', mend: 'Double the quotes inside a cell: "".' }
  return { text: body, isQuoted: true, end, trouble }
}

/** Offset of the quote that closes the one at `open`; two together stand for one and close nothing. */
function closingQuote(text: string, open: number): number {
  let at = text.indexOf('"', open + 1)
  while (at !== -1 && text[at + 1] === '"') at = text.indexOf('"', at + 2)
  return at
}
