import { stringify } from 'yaml'
import {
  type Grade,
  type Grading,
  gradings,
  type LeftOver,
  type MatchAnswer,
  type MatchRequest,
  matchWants,
  objectives,
} from '#core/match'
import { sourceText } from '#core/uncertainty'
import { tableLines, wrapped } from './table.ts'

const digits = (x: number): string => Number(x.toPrecision(4)).toString()

const sure = (p: number): string =>
  p > 0.999 ? '>99.9 %' : p < 0.001 ? '<0.1 %' : `${(100 * p).toFixed(p > 0.99 ? 1 : 0)} %`

/** Sets, what is left over, and how far from the best they are, for people. */
export function matchLines(
  answer: MatchAnswer,
  { by, places, size }: MatchRequest,
  notes: readonly string[],
): readonly string[] {
  const isSure = answer.sets.some((one) => one.probability !== undefined)
  const rows = answer.sets.map((one, i) => [
    String(i + 1),
    one.tags.map((tag, k) => (places === undefined ? tag : `${places[k]!.name} ${tag}`)).join(', '),
    one.isGiven === true ? `${digits(one.cost)}, given` : digits(one.cost),
    ...by.map(({ name }) => digits(one.spread[name]!)),
    ...(isSure ? [one.probability === undefined ? '' : sure(one.probability)] : []),
  ])
  const head = [
    '>set',
    'parts',
    '>mismatch',
    ...by.map(({ name }) => `>spread of ${name}`),
    ...(isSure ? ['>sure'] : []),
  ]
  return [
    ...(rows.length === 0
      ? [`No set of ${size} can be made of these ${answer.leftOver.length} parts.`]
      : tableLines(head, rows)),
    ...overLines(answer.leftOver),
    '',
    ...(rows.length === 0
      ? wrapped('Ask for smaller sets, or for wider limits.')
      : [
          ...wrapped(`Mismatch in total ${digits(answer.totalCost)}: ${objectives[answer.objective]}, over all sets.`),
          ...wrapped(answer.proof.say),
        ]),
    ...(isSure ? wrapped('Sure: how probable it is that the true values meet the tolerances asked for.') : []),
    ...notes.flatMap((note) => wrapped(note)),
  ]
}

const overLines = (over: readonly LeftOver[]): readonly string[] =>
  over.length === 0
    ? []
    : [
        '',
        ...tableLines(
          ['left over', 'why'],
          over.map(({ tag, why }) => [tag, why]),
        ),
      ]

/** Batches of a lot, for people. */
export function gradeLines(
  name: string,
  grades: readonly Grade[],
  leftOver: readonly LeftOver[],
  how: Grading,
  notes: readonly string[],
): readonly string[] {
  const rows = grades.map((g) => [
    g.code,
    String(g.tags.length),
    digits(g.from),
    digits(g.to),
    digits(g.mean),
    g.tags.join(', '),
  ])
  return [
    ...tableLines(['code', '>parts', `>${name} from`, '>to', '>mean', 'tags'], rows),
    ...overLines(leftOver),
    '',
    ...wrapped(`Split ${gradings[how]}.`),
    ...notes.flatMap((note) => wrapped(note)),
  ]
}

/** The common wants, each with why and where from. */
export const wantLines = (): readonly string[] =>
  matchWants.flatMap(({ name, title, why, source }, i) => [
    ...(i === 0 ? [] : ['']),
    `${name}: ${title}`,
    ...wrapped(`${why} (${sourceText(source)})`, '  '),
  ])

/** A request as a file a person can change. */
export const requestText = (request: MatchRequest): string => stringify(request, { lineWidth: 0 })
