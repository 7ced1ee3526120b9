import { normalCdf } from '#core/numeric'
import type { Tester } from '#core/tester'
import { foundOdds } from './found-evidence.ts'
import type { FoundValue } from './found-table.ts'
import type { Sight, SightWord } from './saw.ts'
import { type TesterCheck, testerChecks } from './tester-checks.ts'
import { type TesterFault, testerFaults } from './tester-faults.ts'
import { soundState, type TesterState } from './tester-state.ts'

/** A fault and how well it reproduces what was seen. */
export interface Suspect {
  readonly fault: TesterFault
  /** The size at which it does so best. */
  readonly size: number
  /** Place in the order; suspects that reproduce it equally well share one. */
  readonly place: number
  /** Chance among all single faults, each taken as likely as the next before anything was seen. */
  readonly chance: number
  /** What it would show at the checks that were looked at. */
  readonly shows: readonly { readonly check: TesterCheck; readonly value: number; readonly isLoose: boolean }[]
}

export interface Diagnosis {
  /** The likeliest first. */
  readonly suspects: readonly Suspect[]
  /** How well a sound tester reproduces it, over the best suspect: near 1 and more, nothing speaks for a fault. */
  readonly sound: number
  /** Whether even the best suspect reproduces it poorly: two faults, or something no description holds. */
  readonly isPoor: boolean
  /** What to look at next, and what the first suspects would show there; left out where nothing would tell them apart. */
  readonly next?: {
    readonly check: TesterCheck
    readonly shows: readonly { readonly fault: TesterFault; readonly value: number; readonly isLoose: boolean }[]
  }
}

/** Sizes tried in each span of a fault. */
const sizesPerSpan = 16

/** No single sight speaks against a fault by more than this: people err (common practice). */
const blunder = 1e-4

/** How often somebody who turns the switch and moves the leads does not see a bad contact jump (common practice). */
export const missedJump = 0.1

/** Below this part of what is expected people say that nothing is shown. */
const noneBelow = 0.05

/** So many standard uncertainties from what is expected people say low or high (common practice). */
const sayBeyond = 2

/** Suspects whose chances differ by less than this part are said to be a tie. */
const tieWithin = 0.02

/** Every check of a tester with a fault of one size. */
interface Played {
  readonly size: number
  readonly values: readonly number[]
  readonly loose: readonly boolean[]
}

/** A tester with each of its faults played through: made once, asked often. */
export interface Playbook {
  readonly checks: readonly TesterCheck[]
  readonly sound: Played
  readonly faults: readonly { readonly fault: TesterFault; readonly plays: readonly Played[] }[]
  /** Faults that show at no check, of whatever size: what they concern must be measured by itself. */
  readonly hidden: readonly TesterFault[]
}

/** Plays every single fault of a tester through its network, at sizes across what each may have. */
export function playbook(tester: Tester): Playbook {
  const checks = testerChecks(tester)
  const play = (size: number, s: TesterState): Played => ({
    size,
    values: checks.map((c) => c.see(s)),
    loose: checks.map((c) => c.isLoose(s)),
  })
  const sound = play(1, soundState(tester))
  const all = testerFaults(tester).map((fault) => ({
    fault,
    plays: sizesOf(fault).map((size) => play(size, fault.at(size))),
  }))
  const shows = (p: Played): boolean =>
    checks.some((c, i) => p.loose[i] || Math.abs(p.values[i]! - sound.values[i]!) > sayBeyond * c.u)
  const faults = all.filter(({ plays }) => plays.some(shows))
  return { checks, sound, faults, hidden: all.filter((f) => !faults.includes(f)).map((f) => f.fault) }
}

const sizesOf = (f: TesterFault): readonly number[] =>
  f.sizes.flatMap(([from, to]) =>
    from === to
      ? [from]
      : Array.from({ length: sizesPerSpan }, (_, i) => from * (to / from) ** ((i + 0.5) / sizesPerSpan)),
  )

/**
 * Ranks the single faults of a tester by how well each reproduces what was seen, through the tester's own network. Each
 * is weighed over the sizes it may have, so that a fault which explains anything is not preferred to one that explains
 * just this.
 *
 * @param found parts that were measured: their faults are weighed by that as well
 * @see docs/how-to/find-trouble.md; Bayes' theorem with even odds before
 */
export function diagnose(book: Playbook, saw: readonly Sight[], found: readonly FoundValue[] = []): Diagnosis {
  const seen = saw.map((s) => ({ ...s, index: book.checks.findIndex((c) => c.id === s.check.id) }))
  const sorted = book.faults.map((f) => weighed(f, seen, found)).sort((a, b) => b.weight - a.weight)
  const [best] = sorted
  const next = nextCheck(book, sorted, seen)
  return {
    suspects: ranked(sorted, seen),
    sound: weigh(book.sound, seen) / best!.weight,
    isPoor: seen.some((s) => fitsAt(best!.play, s) < poorBelow),
    ...(next && { next }),
  }
}

/** A sight and where its check stands among all. */
type Placed = Sight & { readonly index: number }

const fitsAt = (p: Played, s: Placed): number => fits(s, p.values[s.index]!, p.loose[s.index]!)

const weigh = (p: Played, seen: readonly Placed[]): number => seen.reduce((product, s) => product * fitsAt(p, s), 1)

/** A fault with its weight over all its sizes, and the size at which it does best. */
type Weighed = Readonly<{ fault: TesterFault; play: Played; weight: number }>

function weighed(
  { fault, plays }: Playbook['faults'][number],
  seen: readonly Placed[],
  found: readonly FoundValue[],
): Weighed {
  const weights = plays.map((p) => weigh(p, seen) * foundOdds(fault, p.size, found))
  const best = weights.indexOf(Math.max(...weights))
  return { fault, play: plays[best]!, weight: weights.reduce((a, b) => a + b, 0) / weights.length }
}

function ranked(sorted: readonly Weighed[], seen: readonly Placed[]): readonly Suspect[] {
  const sum = sorted.reduce((a, w) => a + w.weight, 0)
  const suspects: Suspect[] = []
  for (const [i, { fault, play, weight }] of sorted.entries()) {
    const isTied = i > 0 && weight >= sorted[i - 1]!.weight * (1 - tieWithin)
    const place = isTied ? suspects[i - 1]!.place : i + 1
    const shows = seen.map((s) => ({ check: s.check, value: play.values[s.index]!, isLoose: play.loose[s.index]! }))
    suspects.push({ fault, size: play.size, place, chance: weight / sum, shows })
  }
  return suspects
}

/** A sight that fits worse than this is left unexplained: by number, 3.7 standard uncertainties. */
const poorBelow = 1e-3

/** How well a sight fits what a fault shows: 1 for exactly, never below `blunder`. */
function fits({ check, seen }: Sight, value: number, isLoose: boolean): number {
  if (seen === 'unsteady') return isLoose ? 1 : blunder
  const steady = isLoose ? missedJump : 1
  return Math.max(
    blunder,
    steady * (typeof seen === 'number' ? byNumber(check, seen, value) : byWord(check, seen, value)),
  )
}

const byNumber = (c: TesterCheck, seen: number, value: number): number => Math.exp(-0.5 * ((seen - value) / c.u) ** 2)

function byWord(c: TesterCheck, word: Exclude<SightWord, 'unsteady'>, value: number): number {
  const [from, to] = wordSpan(c, word)
  return normalCdf((to - value) / c.u) - normalCdf((from - value) / c.u)
}

/** Between what values people say a word. */
export function wordSpan(c: TesterCheck, word: Exclude<SightWord, 'unsteady'>): readonly [number, number] {
  const [inf, band] = [Number.POSITIVE_INFINITY, sayBeyond * c.u]
  const centre = c.seen === 'part' ? 1 : 0
  const none = c.seen === 'part' ? noneBelow : -inf
  // the stop itself is 1 % beyond
  const peg = c.stopAt
  switch (word) {
    case 'none':
      return c.seen === 'part' ? [-inf, noneBelow] : [-band, band]
    case 'low':
      return [none, centre - band]
    case 'right':
      return [centre - band, centre + band]
    case 'high':
      return [centre + band, peg]
    case 'pegged':
      return [peg, inf]
  }
}

/** Suspects worth telling apart: as likely as this part of the first, and no more than so many. */
const worthTelling = { part: 0.1, most: 8 } as const

/** The check, not yet looked at, that tells most pairs of the first suspects apart; of equals the one that does so most clearly. */
function nextCheck(book: Playbook, sorted: readonly Weighed[], seen: readonly Placed[]): Diagnosis['next'] {
  const first = sorted.slice(0, worthTelling.most).filter((w) => w.weight >= worthTelling.part * sorted[0]!.weight)
  const tried = book.checks
    .map((check, i) => ({ check, i, ...tellsApart(first, i, check.u) }))
    .filter((t) => t.pairs > 0 && !seen.some((s) => s.index === t.i))
    .sort((a, b) => b.pairs - a.pairs || b.spread - a.spread)
  const [best] = tried
  if (best === undefined) return undefined
  const shows = first.map(({ fault, play }) => ({ fault, value: play.values[best.i]!, isLoose: play.loose[best.i]! }))
  return { check: best.check, shows }
}

/** How many pairs of suspects a check tells apart, and how far apart it puts the farthest, in standard uncertainties. */
function tellsApart(
  first: readonly Weighed[],
  i: number,
  u: number,
): { readonly pairs: number; readonly spread: number } {
  const values = first.map((w) => w.play.values[i]!)
  const isTold = (a: number, b: number): boolean =>
    first[a]!.play.loose[i] !== first[b]!.play.loose[i] || Math.abs(values[a]! - values[b]!) > sayBeyond * u
  const pairs = values.flatMap((_, a) => values.slice(0, a).filter((__, b) => isTold(a, b)))
  return { pairs: pairs.length, spread: (Math.max(...values) - Math.min(...values)) / u }
}
