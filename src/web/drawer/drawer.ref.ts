import type { Drawer, DrawerBlock, WordColumn } from '#api'

const column = (list: readonly (string | undefined)[]): WordColumn => {
  const words = [...new Set(list.filter((w) => w !== undefined))]
  return { words, at: list.map((w) => (w === undefined ? -1 : words.indexOf(w))) }
}

interface Made {
  readonly tag: string
  readonly type?: string
  readonly place?: string
  readonly word?: string
  readonly gain?: number
  readonly leakage?: number
}

/** A block of an invented drawer. */
export function blockOf(list: readonly Made[]): DrawerBlock {
  const none = list.map(() => undefined)
  const numbers = (of: (m: Made) => number | undefined) => list.map((m) => of(m) ?? null)
  return {
    tags: list.map((m) => m.tag),
    types: column(list.map((m) => m.type)),
    lots: column(none),
    places: column(list.map((m) => m.place)),
    statuses: column(list.map(() => 'kept')),
    usedIn: column(none),
    reserved: column(none),
    verdicts: column(list.map((m) => m.word)),
    states: column(list.map(() => 'measured')),
    notes: list.map(() => 0),
    photos: list.map(() => 0),
    runs: list.map(() => 1),
    symbols: {
      h_FE: { unit: '1', value: numbers((m) => m.gain), u: numbers(() => 3), at25: numbers((m) => m.gain) },
      I_CEO: { unit: 'A', value: numbers((m) => m.leakage), u: numbers(() => 1e-6), at25: numbers(() => undefined) },
    },
  }
}

export const smallDrawer: Drawer = {
  version: 4,
  count: 5,
  from: 0,
  blocks: [
    blockOf([
      { tag: 'A-10', type: 'GX-1', place: 'drawer 3', word: 'conforms', gain: 120, leakage: 150e-6 },
      { tag: 'A-2', type: 'GX-1', place: 'bag', word: 'undecided', gain: 80, leakage: 40e-6 },
    ]),
    blockOf([
      { tag: 'B-1', type: 'SX-7', place: 'drawer 3', gain: 240 },
      { tag: 'A-9', type: 'SX-7' },
      { tag: 'C', place: 'Drawer 12', gain: 80 },
    ]),
  ],
}
