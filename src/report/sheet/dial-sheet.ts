import { printPercent, printPlain, type Unit } from '#core/quantity'
import type { DialMark, GainBridge, GainDialCheck } from '#core/upkeep'
import type { CoursePlot } from '#report/plot'
import type { Sheet, SheetProse, SheetTable } from './sheet.ts'

/** Beyond this the null cannot be set as well as a dial is usually read (common practice). */
const bluntNull = 0.02

const text = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 4 })

/** The page of a gain dial that was checked. */
export const dialSheet = (c: GainDialCheck, bridge: GainBridge, leakageA: number): Sheet => ({
  kind: 'Gain dial',
  title: `A gain dial in the ${bridge.dial} of a ${bridge.kind} bridge`,
  lead: [worstSentence(c.marks), ...stopSentence(c), ...bluntSentence(c.marks)].map((say) => ({ say })),
  facts: [
    ['Other resistor', text(bridge.fixedOhm, 'ohm')],
    ['Leakage', text(leakageA, 'A')],
  ],
  blocks: [
    markTable(c.marks, leakageA),
    {
      kind: 'plot',
      caption:
        'How far each mark is from the gain at which the dial nulls there; bars: what the resistors and the law of the pot leave open.',
      plot: errorPlot(c.marks),
    },
    checkBlock(c.marks, bridge),
  ],
  notes: [
    'A mark is held against the gain at which the bridge nulls with the resistance the dial has there.',
    'A division of the needle and the null come from the circuit with a transistor of that gain in it; leakage counts as collector current.',
  ],
})

function worstSentence(marks: readonly DialMark[]): string {
  const worst = marks.reduce((a, b) => (Math.abs(b.error) > Math.abs(a.error) ? b : a))
  const way = worst.error < 0 ? 'low' : 'high'
  return Math.abs(worst.error) < 1e-6
    ? 'Every mark stands where it should.'
    : `At its worst the dial shows ${printPercent(Math.abs(worst.error))} ${way}, at ${text(worst.mark, '1')}.`
}

const stopSentence = ({ atStop }: GainDialCheck): readonly string[] =>
  atStop === undefined || atStop === 0
    ? []
    : [`Turned down to its stop it stands at a gain of ${text(atStop, '1')}, not at 0.`]

function bluntSentence(marks: readonly DialMark[]): readonly string[] {
  const blunt = marks.filter((m) => m.nullWithin > bluntNull).map((m) => text(m.mark, '1'))
  return blunt.length === 0
    ? []
    : [`At ${blunt.join(', ')} the null is blunt: a needle of more current a division, or fresh cells, would help.`]
}

const markTable = (marks: readonly DialMark[], leakageA: number): SheetTable => ({
  kind: 'table',
  caption: 'Mark by mark',
  head: [
    '>mark',
    '>dial',
    '>gain there',
    '>shows off',
    '>within',
    '>a division',
    '>null within',
    `>${text(leakageA, 'A')} adds`,
  ],
  rows: marks.map((m) => [
    text(m.mark, '1'),
    text(m.ohm, 'ohm'),
    text(m.gain, '1'),
    printPercent(m.error),
    printPercent(m.limit),
    printPercent(m.perDivision),
    printPercent(m.nullWithin),
    `+${text(m.leakageBias, '1')}`,
  ]),
})

const errorPlot = (marks: readonly DialMark[]): CoursePlot => ({
  title: 'Errors of the gain dial',
  desc: worstSentence(marks),
  x: { symbol: '', name: 'mark', unit: '1', kind: 'log' },
  y: { symbol: '', name: 'shows off, percent', unit: '1', kind: 'linear' },
  points: marks.map((m) => ({
    x: m.mark,
    y: 100 * m.error,
    low: 100 * (m.error - m.limit),
    high: 100 * (m.error + m.limit),
    outcome: Math.abs(m.error) <= m.limit ? ('conforms' as const) : ('does not conform' as const),
  })),
  lines: [{ kind: 'edge', at: [[marks[0]!.mark, 0]] }],
  bands: [],
})

/** Resistors that null it without a transistor, or why there are none. */
function checkBlock(marks: readonly DialMark[], b: GainBridge): SheetTable | SheetProse {
  if (b.kind === 'divider')
    return {
      kind: 'prose',
      heading: 'Without a transistor',
      lines: [
        'This bridge does not null on resistors: measure the dial at its marks with an ohmmeter, cells out, and give the table.',
      ],
    }
  return {
    kind: 'table',
    caption: 'Without a transistor it nulls here',
    head: ['>dial', 'base to emitter', 'collector to emitter'],
    rows: marks.flatMap(({ check }) =>
      check === undefined
        ? []
        : [
            [
              text(check.gain, '1'),
              check.base.members.map((r) => text(r.ohm, 'ohm')).join(check.base.kind === 'parallel' ? ' || ' : ' + '),
              text(check.collectorOhm, 'ohm'),
            ],
          ],
    ),
  }
}
