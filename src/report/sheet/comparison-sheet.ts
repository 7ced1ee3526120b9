import { printMeasured, printPlain } from '#core/quantity'
import { type Comparison, differenceText, type Estimate, type Interchange } from '#core/upkeep'
import type { CoursePlot } from '#report/plot'
import type { Outcome } from '#report/typeset'
import type { Sheet } from './sheet.ts'

const outcomeOf = { yes: 'conforms', no: 'does not conform', undecided: 'undecided', 'not asked': undefined } as const

/** The page of two testers compared. */
export function comparisonSheet(c: Comparison, answer: Interchange, notes: readonly string[]): Sheet {
  const outcome: Outcome | undefined = outcomeOf[answer.word]
  const [first, second] = c.names
  return {
    kind: 'Two testers compared',
    title: `${first} and ${second}`,
    lead: [{ ...(outcome === undefined ? {} : { outcome }), say: answer.say }],
    facts: [
      ['Parts', `${c.count} read on both`],
      ['Scale', c.scale === 'ratio' ? `${first} over ${second}` : `${first} less ${second}`],
    ],
    blocks: [
      { kind: 'plot', caption: plotCaption(c), plot: differencePlot(c) },
      {
        kind: 'table',
        caption: 'What the differences say',
        head: ['figure', '>value', '>95 % interval'],
        rows: [
          ['bias', ...cells(c, c.bias)],
          ['lower limit of agreement', ...cells(c, c.limits.lower)],
          ['upper limit of agreement', ...cells(c, c.limits.upper)],
          ...repeatRows(c),
        ],
      },
      {
        kind: 'table',
        caption: 'Part by part',
        head: ['part', `>${first}`, `>${second}`, '>difference'],
        rows: c.parts.map((p) => [
          p.part,
          printPlain(p.first, c.unit),
          printPlain(p.second, c.unit),
          differenceText(c, p.difference),
        ]),
      },
    ],
    notes: [
      `Limits of agreement are the bias and ${c.factor} standard deviations to either side (Bland and Altman, Lancet 1986; i: 307-310).`,
      trendSentence(c),
      ...(c.count < 20 ? [`${c.count} parts are few: the limits are known roughly. 20 or more say it well.`] : []),
      ...notes,
    ],
  }
}

const cells = (c: Comparison, e: Estimate): readonly string[] => [
  differenceText(c, e.value),
  `${differenceText(c, e.low)} to ${differenceText(c, e.high)}`,
]

/** 95 % of two readings of one part lie within 1.96 times the square root of 2 of their spread. */
const repeatRows = (c: Comparison): readonly (readonly string[])[] =>
  c.repeats.flatMap((r, i) =>
    r === undefined
      ? []
      : [
          [
            `two readings of one part on ${c.names[i]} (95 %)`,
            c.scale === 'ratio'
              ? differenceText(c, Math.exp(1.96 * Math.SQRT2 * r.sd))
              : differenceText(c, 1.96 * Math.SQRT2 * r.sd),
            `${r.dof} degrees of freedom`,
          ],
        ],
  )

function trendSentence(c: Comparison): string {
  const [first, second] = c.names
  const slope = printMeasured(100 * c.proportional.slope.value, 100 * c.proportional.slope.u, '1')
  if (c.proportional.isSeen)
    return `The difference changes with the value: its slope against the mean is ${slope} %, so the limits slope with it. ${first} and ${second} differ by a factor.`
  if (c.widening.isSeen) return 'The differences scatter more where the value is larger: compare by ratio.'
  return `No proportional difference is seen: the slope against the mean is ${slope} %.`
}

const plotCaption = (c: Comparison): string =>
  `${c.scale === 'ratio' ? 'Ratio' : 'Difference'} of the two against their mean, a point for each part. Full lines: bias and limits of agreement; shaded: their 95 % intervals.`

const axisKind = { kind: 'linear' } as const

/** Differences against means, with bias and limits and their intervals. */
function differencePlot(c: Comparison): CoursePlot {
  const means = c.parts.map((p) => p.mean)
  const ends = [Math.min(...means), Math.max(...means)]
  const band = (e: Estimate) => ({ low: [[ends[0]!, e.low]] as const, high: [[ends[0]!, e.high]] as const })
  const sloped = (which: 0 | 1) => ends.map((m) => [m, c.limitsAt(m)[which]] as const)
  const flat = (e: Estimate) => [[ends[0]!, e.value]] as const
  const isSloped = c.proportional.isSeen
  const isRatio = c.scale === 'ratio'
  return {
    title: `${c.names[0]} and ${c.names[1]}: difference against mean`,
    desc: `${c.count} parts. Bias ${differenceText(c, c.bias.value)}, limits of agreement ${differenceText(c, c.limits.lower.value)} to ${differenceText(c, c.limits.upper.value)}.`,
    x: { symbol: '', name: 'mean of both', unit: c.unit, ...axisKind },
    y: { symbol: '', name: isRatio ? 'ratio' : 'difference', unit: isRatio ? '1' : c.unit, ...axisKind },
    points: c.parts.map((p) => ({ label: p.part, x: p.mean, y: p.difference, outcome: 'conforms' as const })),
    lines: [
      { kind: 'centre', label: 'bias', at: flat(c.bias) },
      { kind: 'limit', label: 'upper limit', at: isSloped ? sloped(1) : flat(c.limits.upper) },
      { kind: 'limit', label: 'lower limit', at: isSloped ? sloped(0) : flat(c.limits.lower) },
    ],
    bands: isSloped ? [] : [band(c.limits.lower), band(c.bias), band(c.limits.upper)],
  }
}
