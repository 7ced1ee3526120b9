import type { DrawerBlock, SymbolColumn, WordColumn } from '#api'
import type { DrawerRow } from '#bench'

/** Parts as columns. Words that repeat are said once; a symbol has a column where some part has it. */
export function blockOf(rows: readonly DrawerRow[]): DrawerBlock {
  const columns = {
    types: wordColumn(rows.length),
    lots: wordColumn(rows.length),
    places: wordColumn(rows.length),
    statuses: wordColumn(rows.length),
    usedIn: wordColumn(rows.length),
    reserved: wordColumn(rows.length),
    verdicts: wordColumn(rows.length),
    states: wordColumn(rows.length),
  }
  const symbols = new Map<string, SymbolColumn>()
  rows.forEach((row, i) => {
    columns.types.put(i, row.type)
    columns.lots.put(i, row.lot)
    columns.places.put(i, row.place)
    columns.statuses.put(i, row.status)
    columns.usedIn.put(i, row.usedIn)
    columns.reserved.put(i, row.reserved)
    columns.verdicts.put(i, row.word)
    columns.states.put(i, row.state)
    putFigures(symbols, row, i, rows.length)
  })
  const words = Object.entries(columns).map(([name, { column }]) => [name, column])
  return {
    tags: rows.map((row) => row.tag),
    ...(Object.fromEntries(words) as { [K in keyof typeof columns]: WordColumn }),
    notes: rows.map((row) => row.hasNote),
    photos: rows.map((row) => row.photos),
    runs: rows.map((row) => row.run ?? 0),
    symbols: Object.fromEntries(symbols),
  }
}

/** A column of words, and the way to put one into it. */
function wordColumn(length: number) {
  const numbers = new Map<string, number>()
  const words: string[] = []
  const at: number[] = new Array(length)
  return {
    column: { words, at } satisfies WordColumn,
    put: (i: number, word: string | null): void => {
      if (word === null) {
        at[i] = -1
        return
      }
      let number = numbers.get(word)
      if (number === undefined) {
        number = words.push(word) - 1
        numbers.set(word, number)
      }
      at[i] = number
    },
  }
}

function putFigures(symbols: Map<string, SymbolColumn>, { figures }: DrawerRow, i: number, length: number): void {
  for (const symbol in figures) {
    const [unit, value, u, at25] = figures[symbol]!
    let column = symbols.get(symbol)
    if (column === undefined) {
      column = emptyColumn(unit, length)
      symbols.set(symbol, column)
    }
    column.value[i] = value
    column.u[i] = u
    column.at25[i] = at25
  }
}

const emptyColumn = (unit: string, length: number): SymbolColumn => ({
  unit,
  value: new Array(length).fill(null),
  u: new Array(length).fill(null),
  at25: new Array(length).fill(null),
})
