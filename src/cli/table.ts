/**
 * Rows as aligned columns under a header, without lines; right-aligned where the header begins with `>`. Cells are of
 * one line and of characters one column wide, as all that Germane prints.
 */
export function tableLines(header: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const heads = header.map((h) => h.replace(/^>/, ''))
  const widths = heads.map((h, i) => rows.reduce((wide, r) => Math.max(wide, r[i]?.length ?? 0), h.length))
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, i) => (header[i]!.startsWith('>') ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
      .join('  ')
      .trimEnd()
  return [line(heads), ...rows.map(line)]
}

/** A sentence broken at blanks to 80 columns; lines after the first are set in under the first word. */
export function wrapped(text: string, lead = ''): readonly string[] {
  const lines: string[] = []
  let line = lead
  for (const word of text.split(/\s+/)) {
    if (line.trim() !== '' && line !== lead && line.length + 1 + word.length > 80) {
      lines.push(line)
      line = ' '.repeat(lead.length)
    }
    line += line === lead || line.trim() === '' ? word : ` ${word}`
  }
  return [...lines, line]
}
