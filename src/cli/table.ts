/** Columns of the terminal; undefined where stdout is a file or a pipe, so that scripts have a row on each line. */
const terminalColumns = (): number | undefined => (process.stdout.isTTY ? process.stdout.columns : undefined)

/** Narrowest column that a sentence is broken into. */
const leastRoom = 20

const gap = '  '

/**
 * Rows as aligned columns under a header, without lines; right-aligned where the header begins with `>`. Cells are of
 * one line and of characters one column wide, as all that Germane prints. Where they do not fit a terminal, what
 * stands in the last column is broken at blanks and goes on below itself.
 *
 * @param columns width of the terminal; as wide as it takes where there is none
 */
export function tableLines(
  header: readonly string[],
  rows: readonly (readonly string[])[],
  columns: number | undefined = terminalColumns(),
): readonly string[] {
  const heads = header.map((h) => h.replace(/^>/, ''))
  const widths = heads.map((h, i) => rows.reduce((wide, r) => Math.max(wide, r[i]?.length ?? 0), h.length))
  const before = widths.slice(0, -1).reduce((sum, w) => sum + w + gap.length, 0)
  const room = (columns ?? Number.POSITIVE_INFINITY) - before
  const breaks = !header.at(-1)?.startsWith('>') && room >= Math.max(leastRoom, heads.at(-1)?.length ?? 0)
  const last = widths.length - 1
  const line = (cells: readonly string[]): readonly string[] => {
    const end = cells[last] ?? ''
    const [first = '', ...more] = breaks && end.length > room ? wrapped(end, '', room) : [end]
    const row = [...widths.slice(0, -1).map((_, i) => cells[i] ?? ''), first]
      .map((cell, i) => (header[i]!.startsWith('>') ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
      .join(gap)
      .trimEnd()
    return [row, ...more.map((text) => `${' '.repeat(before)}${text}`)]
  }
  return [...line(heads), ...rows.flatMap(line)]
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
