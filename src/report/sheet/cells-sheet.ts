import { printPercent, printPlain, printQuantity } from '#core/quantity'
import type { Caution } from '#core/sheet'
import type { CellLoadResult, CellsCheck } from '#core/upkeep'
import { cautionBlock } from './caution-block.ts'
import type { Sheet } from './sheet.ts'

const words = { good: 'good', tired: 'tired', change: 'to be changed' } as const
const outcomes = { good: 'conforms', tired: 'undecided', change: 'does not conform' } as const
const marks = { carries: '=', sags: '?', cannot: 'x' } as const

/** The page of a set of cells: what it still carries, and when to change it. */
export const cellsSheet = (c: CellsCheck, cautions: readonly Caution[]): Sheet => ({
  kind: 'Cells',
  title: 'A set of cells',
  lead: [
    { outcome: outcomes[c.state], say: `The set is ${words[c.state]}.` },
    {
      say: `It carries ${printPlain(c.mostSteadyA, 'A', { digits: 2 })} before it sags, ${printPlain(c.mostA, 'A', { digits: 2 })} before its end.`,
    },
  ],
  facts: [
    ['Resistance inside', `${printQuantity(c.inner)}, ${printPlain(c.innerPerCellOhm, 'ohm', { digits: 3 })} a cell`],
    ['At rest', `${printPlain(c.restPerCellV, 'V', { digits: 3 })} a cell`],
  ],
  blocks: [
    ...(c.loads.length === 0
      ? []
      : [
          {
            kind: 'table' as const,
            caption: 'Load by load',
            head: ['test', 'range', '>tap', '>current', '>left', '>lost', 'verdict'],
            rows: c.loads.map(row),
          },
        ]),
    { kind: 'prose', heading: 'Why', lines: c.why },
    ...cautionBlock(cautions),
  ],
  notes: [
    'Left: the voltage at the tap under the load. Lost: the part of the voltage at rest. End-of-life voltages and the bounds of tired and to be changed are common practice.',
  ],
})

const row = (l: CellLoadResult): readonly string[] => [
  l.reads ?? '',
  l.range ?? '',
  printPlain(l.tapV, 'V'),
  printPlain(l.currentA, 'A', { digits: 3 }),
  printQuantity(l.voltage, { digits: 4 }),
  printPercent(l.sag),
  `${marks[l.word]} ${l.word}`,
]
