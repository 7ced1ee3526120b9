import { printPlain, type Unit } from '#core/quantity'
import type { Comparison } from './compare.ts'

/** What two testers are to be interchangeable for. */
export interface Purpose {
  /** Difference that does no harm: in the unit of the readings, or on the ratio scale a part of the value. */
  readonly within?: number
  /** A limit parts are held against, in the unit of the readings. */
  readonly limit?: { readonly kind: 'min' | 'max'; readonly value: number }
}

/** Whether one tester may stand in for the other. */
export interface Interchange {
  readonly word: 'yes' | 'no' | 'undecided' | 'not asked'
  readonly say: string
  /** Readings of the first tester near the limit, which the second may put on its other side. */
  readonly unsure?: readonly [low: number, high: number]
  /** Parts that came out on different sides of the limit. */
  readonly apart: readonly string[]
}

/** Answers whether two testers are interchangeable for a purpose, in sentences. */
export function interchange(c: Comparison, purpose: Purpose): Interchange {
  const answers = [withinAnswer(c, purpose), limitAnswer(c, purpose)].filter((a) => a !== undefined)
  const words = answers.map((a) => a.word)
  const word = (['no', 'undecided', 'yes'] as const).find((w) => words.includes(w)) ?? 'not asked'
  return {
    apart: [],
    ...Object.assign({}, ...answers),
    word,
    say: [spanSentence(c), ...answers.map((a) => a.say)].join(' '),
  }
}

type Answer = Partial<Interchange> & Pick<Interchange, 'word' | 'say'>

const number = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 3 })

/** A difference on the scale of the comparison: a value with its unit, or percent. */
export const differenceText = (c: Comparison, x: number): string =>
  c.scale === 'ratio' ? percentText(100 * (x - 1)) : number(x, c.unit)

const percentText = (percent: number): string => `${percent.toFixed(Math.abs(percent) < 10 ? 2 : 1)} %`

function spanSentence(c: Comparison): string {
  const [first, second] = c.names
  const { lower, upper } = c.limits
  const apart = c.scale === 'ratio' ? `against one on ${second}` : `less one on ${second}`
  return `A single reading on ${first} ${apart} of the same part lies between ${differenceText(c, lower.value)} and ${differenceText(c, upper.value)} for 95 % of parts.`
}

/** Both limits with their intervals inside what is allowed: yes. A limit wholly outside: no. */
function withinAnswer(c: Comparison, { within }: Purpose): Answer | undefined {
  if (within === undefined) return undefined
  const [least, most] = c.scale === 'ratio' ? [1 - within, 1 + within] : [-within, within]
  const { lower, upper } = c.limits
  const allowed = c.scale === 'ratio' ? `${Number((100 * within).toPrecision(4))} %` : number(within, c.unit)
  if (lower.high < least || upper.low > most)
    return { word: 'no', say: `That is more than the ${allowed} allowed: they are not interchangeable.` }
  if (c.proportional.isSeen || c.widening.isSeen)
    return {
      word: 'undecided',
      say: `The difference changes with the value, so one pair of limits cannot be held against ${allowed}${c.scale === 'ratio' ? '' : '; compare by ratio'}.`,
    }
  if (lower.low >= least && upper.high <= most)
    return { word: 'yes', say: `That is within ${allowed} for certain: they are interchangeable.` }
  return {
    word: 'undecided',
    say: `Whether that stays within ${allowed} is undecided: ${c.count} parts leave the limits open. Read more parts on both.`,
  }
}

function limitAnswer(c: Comparison, { limit }: Purpose): Answer | undefined {
  if (limit === undefined) return undefined
  const [first, second] = c.names
  const [low, high] = c.limitsAt(limit.value)
  const unsure =
    c.scale === 'ratio'
      ? ([limit.value * low, limit.value * high] as const)
      : ([limit.value + low, limit.value + high] as const)
  const isGood = (x: number): boolean => (limit.kind === 'max' ? x <= limit.value : x >= limit.value)
  const apart = c.parts.filter((p) => isGood(p.first) !== isGood(p.second)).map((p) => p.part)
  const near = c.parts.filter((p) => p.first > unsure[0] && p.first < unsure[1])
  const word = apart.length > 0 ? 'no' : near.length > 0 ? 'undecided' : 'yes'
  const name = `${limit.kind} ${number(limit.value, c.unit)}`
  const band = `A part that reads between ${number(unsure[0], c.unit)} and ${number(unsure[1], c.unit)} on ${first} may come out on the other side on ${second}.`
  const found = {
    no: `For the limit ${name} they are not interchangeable: ${listed(apart)} came out on different sides.`,
    undecided: `For the limit ${name} they agreed on every part, but ${listed(near.map((p) => p.part))} ${near.length === 1 ? 'lies' : 'lie'} so near it that this is chance.`,
    yes: `For the limit ${name} they are interchangeable for these parts: none lies near it.`,
  }[word]
  return { word, say: `${found} ${band}`, unsure, apart }
}

const listed = (parts: readonly string[]): string =>
  parts.length > 6 ? `${parts.slice(0, 5).join(', ')} and ${parts.length - 5} more` : parts.join(', ')
