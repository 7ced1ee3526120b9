import type { DrawerBlock, SymbolColumn, WordColumn } from '#api'
import type { DrawerRow } from '#bench'

/** Parts as columns. Words that repeat are said once; a symbol has a column where some part has it. */
export const blockOf = (rows: readonly DrawerRow[]): DrawerBlock => ({
  tags: rows.map((row) => row.tag),
  types: words(rows, (row) => row.type),
  lots: words(rows, (row) => row.lot),
  places: words(rows, (row) => row.place),
  statuses: words(rows, (row) => row.status),
  usedIn: words(rows, (row) => row.usedIn),
  verdicts: words(rows, (row) => row.word),
  states: words(rows, (row) => row.state),
  notes: rows.map((row) => (row.hasNote ? 1 : 0)),
  photos: rows.map((row) => row.photos),
  runs: rows.map((row) => row.run ?? 0),
  symbols: symbolColumns(rows),
})

function words(rows: readonly DrawerRow[], wordOf: (row: DrawerRow) => string | undefined): WordColumn {
  const numbers = new Map<string, number>()
  const at = rows.map((row) => {
    const word = wordOf(row)
    if (word === undefined) return -1
    const known = numbers.get(word)
    if (known !== undefined) return known
    numbers.set(word, numbers.size)
    return numbers.size - 1
  })
  return { words: [...numbers.keys()], at }
}

function symbolColumns(rows: readonly DrawerRow[]): Record<string, SymbolColumn> {
  const columns: Record<string, SymbolColumn> = {}
  rows.forEach((row, i) => {
    for (const [symbol, [unit, value, u, at25]] of Object.entries(row.figures)) {
      columns[symbol] ??= emptyColumn(unit, rows.length)
      const column = columns[symbol]
      column.value[i] = value
      column.u[i] = u
      column.at25[i] = at25
    }
  })
  return columns
}

const emptyColumn = (unit: string, length: number): SymbolColumn => ({
  unit,
  value: Array(length).fill(null),
  u: Array(length).fill(null),
  at25: Array(length).fill(null),
})
