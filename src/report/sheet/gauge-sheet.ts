import { printPlain } from '#core/quantity'
import { type AnovaLine, type GaugeResult, type GaugeShare, type GaugeStudy, gaugeWord } from '#core/upkeep'
import type { CoursePlot } from '#report/plot'
import type { Sheet, SheetTable } from './sheet.ts'

const outcomeOf = { good: 'conforms', marginal: 'undecided', poor: 'does not conform' } as const

/** The page of a measurement with several hands. */
export function gaugeSheet(study: GaugeStudy, g: GaugeResult): Sheet {
  const { word, say } = gaugeWord(g)
  const { parts, hands, trials } = g.counts
  return {
    kind: 'A measurement with several hands',
    title: 'Repeatability and reproducibility',
    lead: [{ outcome: outcomeOf[word], say }],
    facts: [
      ['Readings', `${parts} parts, ${hands} hands, ${trials} times each`],
      ['Method', g.method === 'anova' ? 'analysis of variance' : 'average and range'],
    ],
    blocks: [
      sharesTable(g),
      ...(g.anova === undefined ? [] : [anovaTable(g)]),
      {
        kind: 'table',
        caption: 'Hand by hand',
        head: ['hand', '>mean'],
        rows: study.hands.map((h, i) => [h, printPlain(g.handMeans[i]!, g.unit)]),
      },
      { kind: 'plot', caption: 'Each reading less the mean of its part, hand after hand.', plot: residualPlot(study) },
    ],
    notes: [
      'AIAG, Measurement Systems Analysis, 4th edition, chapter III, section B. Of the study: standard deviation as a part of the total; squares add up to 100 %, shares do not.',
      ...(g.anova?.isPooled === true ? ['Hands and parts do not interact: that line is pooled with the repeats.'] : []),
      ...g.wild.map(
        (w) =>
          `${w.hand} spread ${printPlain(w.range, g.unit)} on ${w.part}, above the limit of ${printPlain(g.rangeLimit, g.unit)}: look for a slip and read it again.`,
      ),
      'Below 10 % is good, above 30 % is poor; five classes or more are wanted.',
    ],
  }
}

function sharesTable(g: GaugeResult): SheetTable {
  const row = (name: string, s: GaugeShare): readonly string[] => [
    name,
    printPlain(s.sd, g.unit),
    percent(s.ofStudy),
    percent(s.ofVariance),
    ...(s.ofTolerance === undefined ? [] : [percent(s.ofTolerance)]),
  ]
  return {
    kind: 'table',
    caption: 'Where the spread comes from',
    head: [
      'cause',
      '>standard deviation',
      '>of the study',
      '>of the variance',
      ...(g.gauge.ofTolerance === undefined ? [] : ['>of the tolerance']),
    ],
    rows: [
      row('repeats by one hand', g.repeatability),
      row('between hands', g.reproducibility),
      row('the measurement, both together', g.gauge),
      row('parts', g.part),
      row('total', g.total),
    ],
  }
}

const percent = (x: number): string => `${x.toFixed(x > 0 && x < 1 ? 2 : 1)} %`

function anovaTable(g: GaugeResult): SheetTable {
  const a = g.anova!
  const row = (name: string, l: AnovaLine): readonly string[] => [
    name,
    String(l.dof),
    l.squares.toPrecision(5),
    l.meanSquare.toPrecision(5),
    l.ratio?.toPrecision(4) ?? '',
    l.chance === undefined ? '' : l.chance < 1e-4 ? '<0.0001' : l.chance.toFixed(4),
  ]
  return {
    kind: 'table',
    caption: 'Analysis of variance',
    head: ['line', '>degrees of freedom', '>squares', '>mean square', '>ratio', '>chance'],
    rows: [
      row('parts', a.part),
      row('hands', a.hand),
      row('parts with hands', a.interaction),
      row('repeats', a.repeats),
      row('total', a.total),
    ],
  }
}

/** Readings less the mean of their part, in the order of hands: what hands and repeats do. */
function residualPlot({ unit, parts, hands, readings }: GaugeStudy): CoursePlot {
  const means = readings.map((part) => part.flat().reduce((a, b) => a + b, 0) / part.flat().length)
  const width = parts.length + 1
  const points = hands.flatMap((_, h) =>
    parts.flatMap((part, p) =>
      readings[p]![h]!.map((x) => ({
        label: part,
        x: h * width + p + 1,
        y: x - means[p]!,
        outcome: 'conforms' as const,
      })),
    ),
  )
  const ends = hands.map((_, h) => {
    const own = points.filter((q) => q.x > h * width && q.x <= h * width + parts.length)
    const mean = own.reduce((a, b) => a + b.y, 0) / own.length
    return [
      [h * width + 1, mean],
      [h * width + parts.length, mean],
    ] as const
  })
  return {
    title: 'Readings less the mean of their part',
    desc: `${hands.join(', ')}: ${points.length} readings.`,
    x: { symbol: '', name: `part, of ${hands.join(', then ')}`, unit: '1', kind: 'linear' },
    y: { symbol: '', name: 'reading less mean of the part', unit, kind: 'linear' },
    points,
    lines: ends.map((at) => ({ kind: 'centre' as const, at })),
    bands: [],
  }
}
