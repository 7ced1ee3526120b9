/** Columns of the terminal; undefined where stdout is a file or a pipe, so that scripts have a row on each line. */
const terminalColumns = (): number | undefined => {
  const { isTTY, columns } = process.stdout
  // a terminal that does not know its width says 0
  return isTTY && columns > 0 ? columns : undefined
}

/** Narrowest column that a sentence is broken into. */
const leastRoom = 20

const gap = '  '

/**
 * Rows as aligned columns under a header, without lines; right-aligned where the header begins with `>`. Cells are of
 * one line and of characters one column wide, as all that Germane prints. Where they do not fit a terminal, what
 * stands in the last column is broken at blanks and goes on below itself; where that leaves it no room, the columns
 * that do not fit stand below their row, each with its name.
 *
 * @param columns width of the terminal; as wide as it takes where there is none
 */
export function tableLines(
  header: readonly string[],
  rows: readonly (readonly string[])[],
  columns: number | undefined = terminalColumns(),
): readonly string[] {
  const shape = shapeOf(header, rows)
  const whole = shape.ends.at(-1) ?? 0
  if (columns === undefined || whole <= columns) return [shape.heads, ...rows].map((r) => alignedLine(r, shape))
  const last = header.length - 1
  const before = whole - shape.widths[last]!
  const room = columns - before
  if (!shape.isRight[last] && room >= Math.max(leastRoom, shape.heads[last]!.length))
    return [shape.heads, ...rows].flatMap((r) => {
      const [first = '', ...more] = wrapped(r[last] ?? '', '', room)
      return [alignedLine([...cellsOf(r, last), first], shape), ...more.map((text) => ' '.repeat(before) + text)]
    })
  const fit = shape.ends.filter((end) => end <= columns).length
  if (fit < 2) return [shape.heads, ...rows].map((r) => alignedLine(r, shape))
  return [alignedLine(shape.heads.slice(0, fit), shape), ...rows.flatMap((r) => stacked(r, shape, fit, columns))]
}

interface Shape {
  readonly heads: readonly string[]
  readonly widths: readonly number[]
  readonly isRight: readonly boolean[]
  /** Where each column ends. */
  readonly ends: readonly number[]
}

function shapeOf(header: readonly string[], rows: readonly (readonly string[])[]): Shape {
  const heads = header.map((h) => h.replace(/^>/, ''))
  const widths = heads.map((h, i) => rows.reduce((wide, r) => Math.max(wide, r[i]?.length ?? 0), h.length))
  let end = -gap.length
  const ends = widths.map((w) => {
    end += gap.length + w
    return end
  })
  return { heads, widths, isRight: header.map((h) => h.startsWith('>')), ends }
}

const cellsOf = (row: readonly string[], count: number): readonly string[] =>
  Array.from({ length: count }, (_, i) => row[i] ?? '')

const alignedLine = (cells: readonly string[], { widths, isRight }: Shape): string =>
  cells
    .map((cell, i) => (isRight[i] ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
    .join(gap)
    .trimEnd()

/** A row with the columns that do not fit named below it. */
function stacked(row: readonly string[], shape: Shape, fit: number, columns: number): readonly string[] {
  const below = shape.heads.flatMap((head, i) => (i < fit || !row[i] ? [] : [`${head}: ${row[i]}`]))
  const line = alignedLine(cellsOf(row, fit), shape)
  return below.length === 0 ? [line] : [line, ...wrapped(below.join('; '), '    ', columns)]
}

/** Widest line of a sentence. */
const widest = 80

/** A sentence broken at blanks to the terminal, 80 columns at most; lines after the first are set in under the first word. */
export function wrapped(text: string, lead = '', columns: number | undefined = terminalColumns()): readonly string[] {
  const width = Math.max(leastRoom, Math.min(widest, columns ?? widest))
  const lines: string[] = []
  let line = lead
  for (const word of text.split(/\s+/)) {
    if (line.trim() !== '' && line !== lead && line.length + 1 + word.length > width) {
      lines.push(line)
      line = ' '.repeat(lead.length)
    }
    line += line === lead || line.trim() === '' ? word : ` ${word}`
  }
  return [...lines, line]
}
