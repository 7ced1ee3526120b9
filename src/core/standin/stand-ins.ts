import type { Availability, Candidate } from './candidate.ts'
import { holdTo } from './hold.ts'
import { type Check, valueText } from './known.ts'
import { type LeadPlan, leadPlan } from './leads.ts'
import type { Need } from './need.ts'
import type { Play } from './play.ts'

/**
 * `stands in`: all that is asked for is there. `with care`: something has to be chosen, measured or changed. `not known`: a
 * rating, which nobody can measure and keep the part, is not published. `refused`: it cannot.
 */
export type Standing = 'stands in' | 'with care' | 'not known' | 'refused'

/** Checks of ratings. */
const ratings: ReadonlySet<string> = new Set([
  'voltage',
  'collector-base voltage',
  'current',
  'power',
  'power on a heat sink',
])

/** One candidate, held to a need. */
export interface StandIn {
  /** Type number, or tag of a part. */
  readonly name: string
  readonly type: string
  readonly isPart: boolean
  readonly standing: Standing
  readonly checks: readonly Check[]
  /** The number with the least margin; left out where none could be compared. */
  readonly worst?: Check
  /** The first thing that refuses it. */
  readonly refusedBy?: Check
  readonly leads?: LeadPlan
  /** How it does in the stage. */
  readonly play?: Play
  readonly availability?: Availability
  readonly inDrawer?: number
  readonly isSameMaterial: boolean
}

/** What can take a place, best first, and what cannot. */
export interface StandIns {
  readonly need: Need
  readonly taken: readonly StandIn[]
  /** Those of which a rating is not known. */
  readonly notKnown: readonly StandIn[]
  readonly refused: readonly StandIn[]
  /** Where nothing can: the nearest, and by what it fails; sentences. */
  readonly nearest?: { readonly name: string; readonly says: string }
}

/** Plays a candidate in the stage of a position, as a further check. */
export type PlayIn = (candidate: Candidate) => { readonly play: Play; readonly check: Check } | undefined

/**
 * Holds candidates to a need. Those that have all that is asked for come before those that ask for care; then those of
 * the same material; then by the worst margin, a number nothing is known of being worse than any.
 *
 * @param playIn plays a candidate that nothing else refuses in the stage of a position
 */
export function standIns(need: Need, candidates: readonly Candidate[], playIn?: PlayIn): StandIns {
  const isItself = (c: Candidate): boolean => c.measured === undefined && c.type.type === need.type?.type
  const all = candidates.filter((c) => !isItself(c)).map((c) => standIn(need, c, playIn))
  const taken = all.filter((s) => s.standing === 'stands in' || s.standing === 'with care').sort(better)
  const notKnown = all.filter((s) => s.standing === 'not known').sort(better)
  const refused = all.filter((s) => s.standing === 'refused').sort(nearer)
  const [first] = refused.filter((s) => s.refusedBy?.what !== 'kind')
  if (taken.length > 0 || first === undefined) return { need, taken, notKnown, refused }
  return { need, taken, notKnown, refused, nearest: { name: first.name, says: failText(first) } }
}

/** One candidate, held to a need. */
export function standIn(need: Need, c: Candidate, playIn?: PlayIn): StandIn {
  const leads = need.type === undefined ? undefined : leadPlan(need.type, c.type)
  const held = holdTo(need, c, leads)
  const isRefused = held.some((x) => x.word === 'short')
  const played = isRefused ? undefined : playIn?.(c)
  const checks = played === undefined ? held : [...held, played.check]
  const refusedBy = checks.find((x) => x.word === 'short')
  const worst = worstOf(checks)
  return {
    name: c.name,
    type: c.type.type,
    isPart: c.measured !== undefined,
    standing: standingOf(checks),
    checks,
    isSameMaterial: need.material === undefined || c.type.material === need.material,
    ...(worst === undefined ? {} : { worst }),
    ...(refusedBy === undefined ? {} : { refusedBy }),
    ...(leads === undefined || refusedBy?.what === 'kind' ? {} : { leads }),
    ...(played === undefined ? {} : { play: played.play }),
    ...(c.availability === undefined ? {} : { availability: c.availability }),
    ...(c.inDrawer === undefined ? {} : { inDrawer: c.inDrawer }),
  }
}

function standingOf(checks: readonly Check[]): Standing {
  if (checks.some((x) => x.word === 'short')) return 'refused'
  if (checks.some((x) => x.word === 'unknown' && ratings.has(x.what) && !((x.ratio ?? 0) >= 1))) return 'not known'
  return checks.every((x) => x.word === 'enough') ? 'stands in' : 'with care'
}

/** A number that is only hinted at has no margin. */
const worstOf = (checks: readonly Check[]): Check | undefined =>
  checks
    .filter((x) => x.ratio !== undefined && x.word !== 'unknown')
    .reduce<Check | undefined>((a, b) => (a === undefined || b.ratio! < a.ratio! ? b : a), undefined)

const margin = (s: StandIn): number => s.worst?.ratio ?? 0

/** Numbers nothing is known of: each may be worse than any margin. */
const unknowns = (s: StandIn): number => s.checks.filter((x) => x.word === 'unknown' && x.symbol !== undefined).length

function better(a: StandIn, b: StandIn): number {
  if (a.standing !== b.standing) return a.standing === 'stands in' ? -1 : 1
  if (a.isSameMaterial !== b.isSameMaterial) return a.isSameMaterial ? -1 : 1
  return unknowns(a) - unknowns(b) || margin(b) - margin(a) || a.name.localeCompare(b.name, 'en')
}

/** Of the right kind before the others, then by what they fail by. */
function nearer(a: StandIn, b: StandIn): number {
  const isKind = (s: StandIn): number => (s.refusedBy?.what === 'kind' ? 1 : 0)
  return isKind(a) - isKind(b) || shortest(b) - shortest(a) || a.name.localeCompare(b.name, 'en')
}

/** The least margin among what refuses a candidate. */
const shortest = (s: StandIn): number =>
  Math.min(...s.checks.filter((x) => x.word === 'short').map((x) => x.ratio ?? 0))

function failText({ name, checks, play }: StandIn): string {
  const fails = checks.filter((x) => x.word === 'short')
  if (play !== undefined && fails.every((x) => x.what === 'stage'))
    return `The nearest is ${name}: it fails in the stage. ${play.verdict.why}`
  const by = fails.map(({ symbol, unit, needed, offered, what }) =>
    unit === undefined || needed === undefined || offered === undefined
      ? what
      : `${symbol} ${valueText(offered, unit)} where ${valueText(needed, unit)} is needed`,
  )
  return `The nearest is ${name}: it fails by ${by.join(', and by ')}.`
}
