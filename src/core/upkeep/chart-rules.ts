/** A pattern in a control chart that chance hardly makes. */
export interface ChartRule {
  readonly id: string
  readonly source: string
  /** What was seen, as a clause: "one point beyond three standard deviations". */
  readonly say: string
  /** Points the pattern spans. */
  readonly span: number
  /** Whether it is there in the last points, in standard deviations from the centre. */
  readonly isIn: (z: readonly number[]) => boolean
}

/** How many lie further than `by` on one side. */
const most = (z: readonly number[], by: number): number =>
  Math.max(z.filter((v) => v > by).length, z.filter((v) => v < -by).length)

const western = 'Western Electric, Statistical Quality Control Handbook (1956), section I-B'
const nelson = 'L. S. Nelson, J. Quality Technology 16 (1984) 237-239'

const beyond: ChartRule = {
  id: 'beyond',
  source: western,
  say: 'a point lies beyond three standard deviations',
  span: 1,
  isIn: (z) => most(z, 3) >= 1,
}
const two: ChartRule = {
  id: 'two-of-three',
  source: western,
  say: 'two of three points lie beyond two standard deviations on one side',
  span: 3,
  isIn: (z) => most(z, 2) >= 2,
}
const four: ChartRule = {
  id: 'four-of-five',
  source: western,
  say: 'four of five points lie beyond one standard deviation on one side',
  span: 5,
  isIn: (z) => most(z, 1) >= 4,
}
const sameSide = (count: number, word: string, source: string): ChartRule => ({
  id: `${word}-on-one-side`,
  source,
  say: `${word} points in a row lie on one side of the centre`,
  span: count,
  isIn: (z) => most(z, 0) === count,
})

const steps = (z: readonly number[]): readonly number[] => z.slice(1).map((v, i) => Math.sign(v - z[i]!))

const trend: ChartRule = {
  id: 'six-in-a-trend',
  source: nelson,
  say: 'six points in a row rise, or fall',
  span: 6,
  isIn: (z) => Math.abs(steps(z).reduce((a, b) => a + b, 0)) === 5,
}
const alternating: ChartRule = {
  id: 'fourteen-alternating',
  source: nelson,
  say: 'fourteen points in a row go up and down by turns',
  span: 14,
  isIn: (z) => steps(z).every((s, i, all) => s !== 0 && (i === 0 || s === -all[i - 1]!)),
}
const hugging: ChartRule = {
  id: 'fifteen-near-the-centre',
  source: nelson,
  say: 'fifteen points in a row lie within one standard deviation: the limits are too wide',
  span: 15,
  isIn: (z) => z.every((v) => Math.abs(v) < 1),
}
const mixture: ChartRule = {
  id: 'eight-far-out',
  source: nelson,
  say: 'eight points in a row lie beyond one standard deviation, on both sides',
  span: 8,
  isIn: (z) => z.every((v) => Math.abs(v) > 1),
}

/** Sets of rules by name. The more rules, the more false alarms. */
export const chartRules = {
  'western-electric': [beyond, two, four, sameSide(8, 'eight', western)],
  nelson: [beyond, sameSide(9, 'nine', nelson), trend, alternating, two, four, hugging, mixture],
} as const satisfies Readonly<Record<string, readonly ChartRule[]>>

export type RuleSet = keyof typeof chartRules

/** Rules broken at each point, the point being the last of its pattern. */
export const signalsOf = (z: readonly number[], set: RuleSet): readonly (readonly ChartRule[])[] =>
  z.map((_, i) => chartRules[set].filter((r) => i + 1 >= r.span && r.isIn(z.slice(i + 1 - r.span, i + 1))))
