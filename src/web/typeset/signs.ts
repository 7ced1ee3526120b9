/** A number that a unit follows stays on one line with it; so does a sign of plus and minus. */
const unit = /(\d) (?=[%°Ωµ]|[munkMp]?(?:[AVWFSH]\b|Hz\b|Ω)|(?:s|K|div|min)\b)/g

/**
 * A sentence with the signs of a book where people type plain letters, each value on one line with its unit.
 *
 * @example bookText('300 uA through 10 kohm') // '300\u00a0µA through 10\u00a0kΩ'
 */
export const bookText = (text: string): string =>
  text
    .replaceAll(/(?<=\d[ \u00a0]?)u(?=[AVFsWSH]\b)/g, 'µ')
    .replaceAll(/\bu(?=[AVFW]\b)/g, 'µ')
    .replaceAll(/\bdegC\b/g, '°C')
    .replaceAll(/(?<=\d[ \u00a0]?)([mkMG])?ohm\b/g, (_, letter: string | undefined) => `${letter ?? ''}Ω`)
    .replaceAll(unit, '$1\u00a0')
    .replaceAll(' ± ', '\u00a0±\u00a0')
