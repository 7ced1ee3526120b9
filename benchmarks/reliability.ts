import { linePlot, pictureFile } from '#report/plot'
import type { AllPairs } from '../test/identify/named-parts.ts'

/** Standard deviations of a count that a bar reaches either way: 19 of 20 lie within. */
const reach = 1.96
/** Bins of fewer answers are not drawn. */
const fewest = 20

/**
 * How often answers were right against how sure they were stated to be: a mark for each bin with the spread that so few
 * answers leave, beside the line on which both agree.
 */
export function reliabilityPicture({ bins: all, parts }: Pick<AllPairs, 'bins' | 'parts'>): string {
  const bins = all.filter((b) => b.count >= fewest)
  const points = bins.map((b) => ({ x: b.stated / b.count, y: b.right / b.count }))
  const spread = bins.map((b) => {
    const p = b.stated / b.count
    const u = reach * Math.sqrt((p * (1 - p)) / b.count)
    return { x: p, low: Math.max(0, p - u), high: Math.min(1, p + u) }
  })
  const drawn = linePlot({
    title: 'How sure an answer is stated to be, and how often it is right',
    desc: `Answers about ${parts} simulated parts, gathered by the probability stated; marks near the dashed line say that it holds.`,
    panels: [
      {
        x: { symbol: '', name: 'stated probability', unit: '1', kind: 'linear' },
        y: { symbol: '', name: 'share that was right', unit: '1', kind: 'linear' },
        isFromZero: true,
        reach: [0, 1],
        reachY: [0, 1],
        height: 420,
        swaths: [{ series: 0, points: spread }],
        lines: [
          {
            series: 1,
            draw: 'line',
            isDashed: true,
            points: [
              { x: 0, y: 0 },
              { x: 1, y: 1 },
            ],
          },
          { series: 0, draw: 'points', points },
        ],
        key: [
          { series: 0, draw: 'points', label: 'share of answers that were right' },
          { series: 0, draw: 'swath', label: 'where 19 of 20 such shares lie by chance' },
          { series: 1, draw: 'line', isDashed: true, label: 'as stated' },
        ],
      },
    ],
  })
  return pictureFile(drawn)
}
