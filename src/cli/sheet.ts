import { type Sheet, sheetFile } from '#bench'
import { printJson, printLines } from './output.ts'
import { block } from './say.ts'
import { tableLines, wrapped } from './table.ts'
import { refuseNoPage, writeOut } from './write-out.ts'

const marks = { conforms: '= ', 'does not conform': 'x ', undecided: '? ' } as const

/** A sheet for the terminal: what matters first, then its tables. Drawings are for `--out`. */
export function sheetLines(s: Sheet): readonly string[] {
  const mark = (outcome?: string): string => (outcome === undefined ? '' : (marks[outcome as keyof typeof marks] ?? ''))
  return [
    s.title,
    ...s.lead.flatMap((l) => wrapped(l.say, mark(l.outcome))),
    ...block(
      'About',
      s.facts.map(([name, text]) => `  ${name.toLowerCase()}: ${text}`),
    ).slice(0, s.facts.length === 0 ? 0 : undefined),
    ...s.blocks.flatMap((b) => {
      if (b.kind === 'table') return block(b.caption, tableLines(b.head, b.rows))
      return b.kind === 'prose'
        ? block(
            b.heading,
            b.lines.flatMap((l) => wrapped(l, b.lines.length > 1 ? '- ' : '  ')),
          )
        : []
    }),
    '',
    ...s.notes.flatMap((n) => wrapped(n, '- ')),
  ]
}

/** What `--out` of a sheet does, for the help. */
export const outText = 'page to write; of a name that ends in .svg or .png its first drawing alone'

/** Prints a sheet as people or scripts want it, and writes the file where one was asked for. */
export async function printSheet(
  sheet: Sheet,
  document: () => unknown,
  o: { readonly json?: boolean; readonly out?: string },
): Promise<void> {
  if (o.out !== undefined) {
    refuseNoPage(o.out)
    writeOut(o.out, await sheetFile(sheet, o.out))
  }
  if (o.json === true) printJson(document())
  else printLines([...sheetLines(sheet), ...(o.out === undefined ? [] : ['', `${o.out} is written.`])])
}
