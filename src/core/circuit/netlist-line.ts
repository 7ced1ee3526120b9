/** A logical line: continuation lines joined, comments taken off; `pieces` says which of its words stand on which line. */
export interface Line {
  readonly text: string
  readonly number: number
  readonly pieces: readonly { readonly text: string; readonly number: number }[]
}

/**
 * The logical lines below the title of a netlist, numbered as in the file, up to `.end`.
 *
 * @param text without the title line
 */
export function logicalLines(text: readonly string[]): readonly Line[] {
  const all: { text: string; number: number; pieces: { text: string; number: number }[] }[] = []
  for (const [k, raw] of text.entries()) {
    const line = raw.replace(/(;|\s\$\s|\s\$$).*$/, '').trim()
    if (/^\.end\s*$/i.test(line)) break
    if (line === '' || line.startsWith('*')) continue
    const number = k + 2
    const before = all.at(-1)
    if (line.startsWith('+') && before !== undefined) {
      const more = line.slice(1).trim()
      before.text += ` ${more}`
      before.pieces.push({ text: more, number })
    } else all.push({ text: line, number, pieces: [{ text: line, number }] })
  }
  return all
}

/** Line on which a word of a logical line stands. */
export const lineOf = (line: Line, word: string): number =>
  line.pieces.find((p) => p.text.toLowerCase().includes(word.toLowerCase()))?.number ?? line.number

/** Words of a line; what stands around an equals sign is one word. */
export const wordsOf = (line: Line): readonly string[] => line.text.replaceAll(/\s*=\s*/g, '=').split(/\s+/)
