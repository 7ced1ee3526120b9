import { type Fault, type Place, wholeText } from '#core/fault'

export interface ReadOptions {
  /** Name shown in faults. */
  readonly file?: string
}

/** Longest texts that are read, in characters. YAML is read by a slower reader and has the tighter bound. */
export const longestText = { yaml: 1_000_000, json: 100_000_000, csv: 200_000_000 } as const

/** The file of a place, where there is one. */
export const filePlace = (file: string | undefined): Place => (file === undefined ? {} : { file })

/** A fault about a whole text. */
export const textFault = (file: string | undefined, problem: string, mend: string, place: Place = {}): Fault => ({
  code: 'bad-input',
  place: { ...filePlace(file), ...place },
  value: wholeText,
  problem,
  mend,
})

/** What keeps a text from being read at all, whatever its form. */
export function unreadable(text: string, longest: number, options: ReadOptions): Fault | undefined {
  if (text.trim() === '') return textFault(options.file, 'is empty', 'Check that the right file was given.')
  if (text.length > longest)
    return textFault(
      options.file,
      `is too long: ${text.length} characters, and at most ${longest} are read`,
      'Split it into several files.',
    )
  if (text.includes('\0')) return textFault(options.file, 'is not plain text', 'Give a text file saved as UTF-8.')
  if (text.includes('\ufffd')) {
    const place = lineIndex(text)(text.indexOf('\ufffd'))
    return textFault(options.file, 'has letters that are not UTF-8', 'Save it again with the encoding UTF-8.', place)
  }
  return undefined
}

/** Finds line and column, both from 1, of an offset in a text. */
export function lineIndex(text: string): (offset: number) => { readonly line: number; readonly column: number } {
  const starts = [0]
  for (let at = text.indexOf('\n'); at !== -1; at = text.indexOf('\n', at + 1)) starts.push(at + 1)
  return (offset) => {
    let low = 0
    let high = starts.length - 1
    while (low < high) {
      const middle = (low + high + 1) >> 1
      if (starts[middle]! <= offset) low = middle
      else high = middle - 1
    }
    return { line: low + 1, column: offset - starts[low]! + 1 }
  }
}
