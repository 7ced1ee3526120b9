import { describe, expect, test } from 'vitest'
import { expectPrinted, expectRelative } from '#core/testing'
import published from './gauge.ref.json'
import { averageAndRange } from './gauge-ranges.ts'
import { type GaugeStudy, gaugeExampleCsv, gaugeStudy, gaugeWord, readGaugeStudy } from './index.ts'

const { aiag, helicopter } = published

/** AIAG, Measurement Systems Analysis, 4th ed., figure III-B 15: ten parts, three appraisers, three trials. */
const aiagStudy: GaugeStudy = {
  unit: '1',
  parts: Array.from({ length: 10 }, (_, i) => String(i + 1)),
  hands: ['A', 'B', 'C'],
  readings: Array.from({ length: 10 }, (_, p) =>
    (['A', 'B', 'C'] as const).map((hand) => aiag.data[hand].map((trial) => trial[p]!)),
  ),
}

describe('AIAG, analysis of variance', () => {
  const g = gaugeStudy(aiagStudy)
  const { sd, pct_TV, ndc: classes, pooled } = aiag.published.anova

  test('every line of the table, as printed', () => {
    const lines = { operator: g.anova!.hand, parts: g.anova!.part, interaction: g.anova!.interaction } as const
    for (const [name, line] of Object.entries(lines)) {
      const printed = aiag.published.anova[name as keyof typeof lines]
      expect(line.dof).toBe(printed.df)
      expectPrinted(line.squares, printed.SS.toFixed(4))
      expectPrinted(line.meanSquare, printed.MS.toFixed(5))
      // the manual's table holds every line against the repeats, before it pools
      expectPrinted(line.meanSquare / g.anova!.repeats.meanSquare, String(printed.F))
    }
    expectPrinted(g.anova!.repeats.squares, '2.7589')
    expectPrinted(g.anova!.total.squares, '94.6471')
    expect([g.anova!.repeats.dof, g.anova!.total.dof, g.anova!.isPooled]).toEqual([60, 89, pooled])
  })

  test('standard deviations and shares, printed and recomputed', () => {
    const { sd: exact, pct_of_TV: shares, ndc } = aiag.computed
    for (const [name, share] of [
      ['EV', g.repeatability],
      ['AV', g.reproducibility],
      ['GRR', g.gauge],
      ['PV', g.part],
    ] as const) {
      // the manual rounds its variances on the way
      expectPrinted(share.sd, sd[name].toFixed(6), 3)
      expectRelative(share.sd, exact[name], 1e-12)
      expectPrinted(share.ofStudy, pct_TV[name].toFixed(1))
      expectRelative(share.ofStudy, shares[name], 1e-12)
    }
    expectRelative(g.total.sd, exact.TV, 1e-12)
    expectRelative(g.classes, ndc, 1e-12)
    expect(Math.floor(g.classes)).toBe(classes)
  })

  test('in words: may do, most of it between hands', () => {
    expect(gaugeWord(g)).toMatchObject({ word: 'marginal' })
    expect(gaugeWord(g).say).toContain('28 %')
    expect(gaugeWord(g).say).toContain('between hands')
    expect(gaugeWord(gaugeStudy(aiagStudy, { tolerance: 100 })).word).toBe('marginal')
    expect(gaugeWord(gaugeStudy(aiagStudy, { tolerance: 1 })).word).toBe('poor')
  })
})

describe('AIAG, average and range method', () => {
  const g = gaugeStudy(aiagStudy, { method: 'ranges' })
  const printed = aiag.published.average_and_range

  test('as printed; the manual carries the mean range on as 0.3417 and K as four digits', () => {
    expectRelative(g.repeatability.sd, printed.EV, 3e-4)
    expectRelative(g.reproducibility.sd, printed.AV, 3e-4)
    expectRelative(g.gauge.sd, printed.GRR, 3e-4)
    expectRelative(g.part.sd, printed.PV, 3e-4)
    expectRelative(g.total.sd, printed.TV, 3e-4)
    for (const [name, share] of [
      ['EV', g.repeatability],
      ['AV', g.reproducibility],
      ['GRR', g.gauge],
      ['PV', g.part],
    ] as const)
      expectPrinted(share.ofStudy, printed.pct_TV[name].toFixed(2), 2)
    expect(Math.floor(g.classes)).toBe(printed.ndc)
  })

  test('means, ranges and the one cell that is out of control', () => {
    const r = averageAndRange(aiagStudy)
    for (const [i, hand] of (['A', 'B', 'C'] as const).entries()) {
      expectPrinted(r.handRanges[i]!, printed.Rbar[hand].toFixed(3))
      expectPrinted(r.handMeans[i]!, printed.Xbar[hand].toFixed(4))
    }
    expectPrinted(r.meanRange, '0.3417')
    expectPrinted(r.rangeLimit, '0.88')
    expect(r.wild).toHaveLength(1)
    expect(r.wild[0]).toMatchObject({ part: String(printed.out_of_control_range.part), hand: 'B' })
  })
})

/** Cano, Moguerza, Redchuk, Six Sigma with R, Springer 2012, chapter 5. */
describe('three parts, three hands, three trials', () => {
  const study: GaugeStudy = { unit: '1', parts: ['1', '2', '3'], hands: ['1', '2', '3'], readings: helicopter.data }
  const g = gaugeStudy(study, { poolAbove: 0.05 })

  test('pooled: standard deviations and classes', () => {
    const { sd, pct_study, ncat } = helicopter.published
    expectPrinted(g.gauge.sd, String(sd.GRR))
    expectPrinted(g.repeatability.sd, String(sd.repeatability))
    expectPrinted(g.reproducibility.sd, String(sd.reproducibility))
    expectPrinted(g.part.sd, String(sd.part))
    expectPrinted(g.gauge.ofStudy, String(pct_study.GRR))
    expect(Math.floor(g.classes)).toBe(ncat)
  })

  test('not pooled: parts and hands stand against the interaction', () => {
    const { anova } = gaugeStudy(study, { poolAbove: 1 })
    const { F_vs_interaction: f, p } = helicopter.published
    expectPrinted(anova!.part.ratio!, String(f.part))
    expectPrinted(anova!.hand.ratio!, f.operator.toFixed(2))
    expectPrinted(anova!.part.chance!, String(p.part))
    expectPrinted(anova!.hand.chance!, String(p.operator))
    expectPrinted(anova!.interaction.chance!, String(p.interaction))
  })
})

describe('the table', () => {
  test('the example is read', () => {
    const study = readGaugeStudy(gaugeExampleCsv, 'x.csv')
    expect(study).toMatchObject({ unit: 'A', hands: ['Ada', 'Ben', 'Cyd'] })
    expect(study.parts).toHaveLength(10)
    expect(gaugeWord(gaugeStudy(study)).word).toBe('good')
  })

  test.each([
    ['part,hand\n1,A\n', /"reading" is a column that is missing/],
    ['part,hand,reading\n1,A,1\n1,A,2\n1,B,1\n', /was read once by B/],
    ['part,hand,reading\n1,,1\n', /row 2, column "hand"/],
  ])('%j is refused', (text, say) => expect(() => readGaugeStudy(text, 't.csv')).toThrow(say))

  test('one hand, and readings that never differ, are refused', () => {
    const one = readGaugeStudy('part,hand,reading\n1,A,1\n1,A,2\n2,A,3\n2,A,3\n', 't.csv')
    expect(() => gaugeStudy(one)).toThrow(/count of hands is 1/)
    const same = {
      unit: '1' as const,
      parts: ['1', '2'],
      hands: ['A', 'B'],
      readings: [
        [
          [1, 1],
          [1, 1],
        ],
        [
          [2, 2],
          [2, 2],
        ],
      ],
    }
    expect(() => gaugeStudy(same)).toThrow(/finer part of a division/)
  })
})
