/** Cyrillic capitals of Soviet type numbers, as they are written in Latin letters. */
const latin: Readonly<Record<string, string>> = {
  А: 'A',
  Б: 'B',
  В: 'V',
  Г: 'G',
  Д: 'D',
  Е: 'E',
  И: 'I',
  К: 'K',
  М: 'M',
  Н: 'N',
  О: 'O',
  П: 'P',
  С: 'S',
  Т: 'T',
  У: 'U',
  Ф: 'F',
}

/**
 * A type number without what does not count: case, blanks, hyphens, Cyrillic letters; a decimal point between figures
 * becomes V as in `BZX79-C5V1`, and a zero before the letter of an old European number becomes O.
 *
 * @example plainTypeName('2 sb-54') // '2SB54'
 */
export function plainTypeName(text: string): string {
  const upper = text.trim().slice(0, 60).toUpperCase()
  const joined = [...upper].map((c) => latin[c] ?? c).join('')
  return joined
    .replace(/(\d)[.,](\d)/g, '$1V$2')
    .replaceAll(/[^A-Z0-9]/g, '')
    .replace(/^0(?=[ACPDR][ACPZ]?\d)/, 'O')
}

/** Quality prefixes of MIL-PRF-19500 before a registered number, and the rest; undefined where there is none. */
export function withoutJan(plain: string): { readonly prefix: string; readonly rest: string } | undefined {
  const m = /^(JANTXV|JANTX|JANS|JAN)(\dN\d.*)$/.exec(plain)
  return m === null ? undefined : { prefix: m[1]!, rest: m[2]! }
}
