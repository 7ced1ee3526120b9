import type { StandInsFound } from '#bench'
import { askedFor, type Check, type CheckWord, type StandIn, type StandIns, type Standing } from '#core/standin'
import { block } from './say.ts'
import { stageDegrees, stageValue, stageWordText } from './stage-lines.ts'
import { tableLines, wrapped } from './table.ts'

const marks: Readonly<Record<Standing, string>> = {
  'stands in': '=',
  'with care': '~',
  'not known': '?',
  refused: 'x',
}
const standingText = (s: Standing): string => `${marks[s]} ${s}`

/** Refused candidates that are named. */
const refusedShown = 5

/** What was found, for people: what is asked for, the best candidates with what asks for care, the nearest refused ones. */
export function standInLines({ result, position, notLookedAt }: StandInsFound, count: number): readonly string[] {
  const { need, taken } = result
  const shown = taken.slice(0, count)
  const where = position === undefined ? '' : ` at ${position.place} of ${position.title}`
  return [
    `Stand-ins for ${need.name}${where}, in air up to ${stageDegrees(need.hottestC)}`,
    ...(need.own === undefined ? [] : wrapped(`${need.name} itself: ${stageWordText(need.own.word)}. ${need.own.why}`)),
    ...block('What is asked for:', askedLines(result)),
    ...(need.notAsked.length === 0
      ? []
      : wrapped(`Not asked for, as it is not published of ${need.name}: ${need.notAsked.join(', ')}.`)),
    '',
    ...wrapped(countText(result, shown.length)),
    ...(shown.length === 0 ? [] : ['', ...marginLines(shown)]),
    ...shown.flatMap(careLines),
    ...block(
      'A rating of these is not published, so that nobody can say:',
      result.notKnown.length === 0 ? [] : wrapped(`${result.notKnown.map((s) => s.name).join(', ')}.`),
    ),
    ...block('Refused, the nearest first:', refusedLines(result)),
    ...(notLookedAt === undefined ? [] : ['', ...wrapped(`${notLookedAt} parts of the drawer were not looked at.`)]),
  ]
}

const askedLines = ({ need }: StandIns): readonly string[] =>
  tableLines(
    ['what', 'symbol', 'needed', 'why'],
    askedFor(need).map((a) => [a.what, a.symbol, `${a.bound} ${stageValue(a.value, a.unit)}`, a.why]),
  )

function countText({ taken, notKnown, refused, nearest }: StandIns, shown: number): string {
  if (nearest !== undefined) return `No candidate. ${nearest.says}`
  if (taken.length === 0) return 'No candidate: there is none of its kind.'
  const whole = taken.filter((s) => s.standing === 'stands in').length
  const kin = refused.filter((s) => s.refusedBy?.what !== 'kind').length
  const first = shown < taken.length ? ` The first ${shown}:` : ''
  return `${standingText('stands in')}: ${whole}; ${standingText('with care')}: ${taken.length - whole}; ${standingText('not known')}: ${notKnown.length}; ${standingText('refused')}: ${kin} of its kind.${first}`
}

/** Short heads of the columns. */
const heads: Readonly<Record<string, string>> = {
  voltage: 'V_CE',
  'collector-base voltage': 'V_CB',
  'emitter-base voltage': 'V_EB',
  current: 'I',
  power: 'P',
  'power on a heat sink': 'P(case)',
  gain: 'h_FE',
  'highest gain': 'h_FE max',
  frequency: 'f',
  leakage: 'leakage',
  recovery: 't_rr',
  stage: 'stage',
}

/** A margin as a ratio, `?` where nothing is known; marked where it is not enough. */
function marginText(check: Check | undefined): string {
  if (check === undefined) return ''
  if (check.ratio === undefined) return check.word === 'unknown' ? '?' : ''
  const ratio = check.ratio >= 100 ? '>99' : String(Number(check.ratio.toPrecision(2)))
  return check.word === 'unknown' ? `${ratio}?` : ratio
}

/** What each candidate has over what is needed, a line each. */
function marginLines(shown: readonly StandIn[]): readonly string[] {
  const columns = Object.keys(heads).filter((what) => shown.some((s) => s.checks.some((c) => c.what === what)))
  const hasDrawer = shown.some((s) => s.inDrawer !== undefined || s.isPart)
  const hasMark = shown.some((s) => s.availability !== undefined)
  return [
    'Margins: what it has over what is needed; 1 is just enough, ? is not known.',
    ...tableLines(
      [
        '',
        'candidate',
        ...(hasDrawer ? ['drawer'] : []),
        ...(hasMark ? ['to be had'] : []),
        ...columns.map((c) => `>${heads[c]}`),
        'leads',
      ],
      shown.map((s) => [
        marks[s.standing],
        s.isPart ? `${s.name} (${s.type})` : s.name,
        ...(hasDrawer ? [s.isPart ? 'this part' : (s.inDrawer?.toString() ?? '')] : []),
        ...(hasMark ? [s.availability ?? ''] : []),
        ...columns.map((what) => marginText(s.checks.find((c) => c.what === what))),
        s.leads?.work ?? '',
      ]),
    ),
  ]
}

/** What asks for care of a candidate, a sentence each. */
const careLines = (s: StandIn): readonly string[] =>
  block(
    `${s.name}: ${standingText(s.standing)}`,
    s.checks
      .filter((c) => c.word !== 'enough' || (c.what === 'leads' && s.leads?.work !== 'none'))
      .flatMap((c) => wrapped(`${c.what}: ${c.says}`, '  ')),
  )

const refusedLines = ({ refused }: StandIns): readonly string[] =>
  tableLines(
    ['type', 'why'],
    refused
      .filter((s) => s.refusedBy?.what !== 'kind')
      .slice(0, refusedShown)
      .map((s) => [s.name, s.refusedBy!.says]),
  ).slice(refused.every((s) => s.refusedBy?.what === 'kind') ? 1 : 0)

const words: Readonly<Record<CheckWord, string>> = {
  enough: '= enough',
  care: '~ care',
  unknown: '? unknown',
  short: 'x short',
}

/** One candidate with every margin and reason. */
export function candidateLines({ result, position }: StandInsFound, s: StandIn): readonly string[] {
  const where = position === undefined ? '' : ` at ${position.place} of ${position.title}`
  return [
    `${s.name}${s.isPart ? ` (${s.type})` : ''} for ${result.need.name}${where}: ${standingText(s.standing)}`,
    '',
    ...tableLines(
      ['what', 'verdict', '>needed', '>has', '>margin'],
      s.checks.map((c) => [
        c.what,
        words[c.word],
        c.needed === undefined || c.unit === undefined ? '' : stageValue(c.needed, c.unit),
        c.offered === undefined || c.unit === undefined ? '' : stageValue(c.offered, c.unit),
        c.ratio === undefined ? '' : String(Number(c.ratio.toPrecision(3))),
      ]),
    ),
    '',
    ...s.checks.flatMap((c) => wrapped(`${c.what}: ${c.says}`, '- ')),
  ]
}
