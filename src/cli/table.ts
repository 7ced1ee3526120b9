import Table from 'cli-table3'

const none = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
  middle: '  ',
}

/** Rows as aligned columns under a header, without lines; right-aligned where the header begins with `>`. */
export function tableLines(header: readonly string[], rows: readonly (readonly string[])[]): readonly string[] {
  const table = new Table({
    chars: none,
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0, compact: true },
    head: header.map((h) => h.replace(/^>/, '')),
    colAligns: header.map((h) => (h.startsWith('>') ? 'right' : 'left')),
  })
  table.push(...rows.map((r) => [...r]))
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
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
