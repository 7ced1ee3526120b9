import { FaultError } from '#core/fault'
import { type FitKind, fitKinds, symbolsOf } from '#core/fit'
import { headerText, readCsv } from '#core/text'

const plain = (text: string): string => text.toLowerCase().replaceAll(/[\s_-]+/g, '')

/** Symbols that stand for one kind alone; both field-effect kinds are drawn alike. */
const telling: readonly (readonly [symbol: string, kind: FitKind])[] = [
  ['V_GS', 'jfet'],
  ['V_DS', 'jfet'],
  ['V_BE', 'bjt'],
  ['V_CE', 'bjt'],
  ['I_C', 'bjt'],
  ['V_F', 'diode'],
  ['V_R', 'diode'],
  ['I_F', 'diode'],
  ['I_R', 'diode'],
  ['V', 'diode'],
  ['I', 'diode'],
]

/**
 * What kind of part a file of curves is of, by the names of its columns.
 *
 * @param columns other headers, header to symbol
 * @throws {FaultError} where the table cannot be read, or no column tells
 * @example curveKindOf('V_BE [V],I_C [A]\n0.6,1e-3\n', 'Q1.csv') // 'bjt'
 */
export function curveKindOf(text: string, file: string, columns: Readonly<Record<string, string>> = {}): FitKind {
  const read = readCsv(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  const names = new Set(read.table.columns.map((c) => plain(columns[c.name] ?? columns[headerText(c)] ?? c.name)))
  const found = telling.find(([symbol]) => names.has(plain(symbol)))
  if (found !== undefined) return found[1]
  throw new FaultError({
    code: 'bad-input',
    place: { file },
    value: read.table.columns.map((c) => c.name).join(', '),
    problem: 'are no columns of a curve',
    mend: `Name them by symbol, such as ${symbolsOf.diode.slice(0, 2).join(' and ')} or ${symbolsOf.bjt.join(', ')}, map each column to its symbol, or say what the part is: ${fitKinds.join(', ')}.`,
  })
}
