import { Random } from '#core/numeric'
import type { Tester } from '#core/tester'
import {
  diagnose,
  missedJump,
  type Playbook,
  playbook,
  type Sight,
  type TesterCheck,
  type TesterFault,
  wordSpan,
} from '#core/upkeep'

/** Testers with one fault whose truth is known, seen with the doubt of a person and a meter, and diagnosed. */

export interface Tally {
  /** Cases tried, those whose fault can be seen and told from every other, and those of these among the first three. */
  readonly tried: number
  readonly distinguishable: number
  readonly inThree: number
  readonly first: number
  /** Among all that can be seen at all, told apart or not. */
  readonly visible: number
  readonly visibleInThree: number
  /** What was missed, and what came first instead. */
  readonly missed: readonly string[]
}

interface Truth {
  readonly fault: TesterFault
  readonly values: readonly number[]
  readonly loose: readonly boolean[]
}

/** A fault drawn at random, its size anywhere in its spans and not on the grid that is searched. */
function draw(book: Playbook, random: Random): Truth {
  const { fault } = book.faults[random.integer(book.faults.length)]!
  const [from, to] = fault.sizes[random.integer(fault.sizes.length)]!
  const state = fault.at(from * (to / from) ** random.uniform())
  return {
    fault,
    values: book.checks.map((c) => c.see(state)),
    loose: book.checks.map((c) => c.isLoose(state)),
  }
}

/** Standard normal, from two evenly spread numbers (Box and Muller 1958). */
const normal = (random: Random): number =>
  Math.sqrt(-2 * Math.log(1 - random.uniform())) * Math.cos(2 * Math.PI * random.uniform())

/** What a person notes: a number where the needle stands on the scale and they care for one, else a word. */
function note(check: TesterCheck, value: number, isLoose: boolean, byNumber: boolean, random: Random): Sight {
  if (isLoose && random.uniform() > missedJump) return { check, seen: 'unsteady' }
  const seen = value + check.u * normal(random)
  const words = (['none', 'pegged', 'right', 'low', 'high'] as const).slice(check.seen === 'part' ? 0 : 1)
  const word = words.find((w) => {
    const [low, high] = wordSpan(check, w)
    return seen >= low && seen <= high
  })!
  return { check, seen: byNumber && word !== 'none' && word !== 'pegged' ? seen : word }
}

interface Seen extends Sight {
  readonly index: number
}

/** Whether a play stands out from what is true at some check by so many standard uncertainties, or by what was seen to jump. */
const differs = (
  saw: readonly Seen[],
  truth: Omit<Truth, 'fault'>,
  play: Omit<Truth, 'fault'>,
  jumped: boolean,
): boolean =>
  saw.some(
    ({ check: c, index: i }) =>
      (jumped && truth.loose[i] !== play.loose[i]) || Math.abs(truth.values[i]! - play.values[i]!) > tellsBeyond * c.u,
  )

/** So many standard uncertainties at one check tell two faults apart. */
const tellsBeyond = 3

/** @param share how many of the checks somebody looks at, as a part of all */
export function tally(tester: Tester, cases: number, seed: number, share = 1): Tally {
  const book = playbook(tester)
  const random = new Random(seed)
  const count = { distinguishable: 0, inThree: 0, first: 0, visible: 0, visibleInThree: 0 }
  const missed: string[] = []
  for (let i = 0; i < cases; i++) {
    const truth = draw(book, random)
    const byNumber = random.uniform() < 0.5
    const saw = book.checks
      .map((c, k): Seen => ({ ...note(c, truth.values[k]!, truth.loose[k]!, byNumber, random), index: k }))
      .filter(() => random.uniform() < share)
    const jumped = saw.some((s) => s.seen === 'unsteady')
    if (!differs(saw, truth, book.sound, jumped)) continue
    const isTold = book.faults.every(
      ({ fault, plays }) => fault.id === truth.fault.id || plays.every((p) => differs(saw, truth, p, jumped)),
    )
    const { suspects } = diagnose(book, saw)
    const own = suspects.find((s) => s.fault.id === truth.fault.id)!
    // of a tie the worst place counts
    const rank = own.place + suspects.filter((s) => s.place === own.place).length - 1
    count.visible += 1
    if (rank <= 3) count.visibleInThree += 1
    if (!isTold) continue
    count.distinguishable += 1
    if (rank <= 3) count.inThree += 1
    else missed.push(`${truth.fault.id} at ${rank}, after ${suspects[0]!.fault.id}`)
    if (rank === 1) count.first += 1
  }
  return { tried: cases, ...count, missed }
}
