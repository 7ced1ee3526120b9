import {
  digitalMeter,
  type ExtraTest,
  type LeadReading,
  nextTest,
  type Posterior,
  type SimulatedPart,
  simulatedPart,
  type Trial,
  weigh,
} from '#core/identify'

/** Seed of the parts that are tried; the shipped table has another. */
const seed = 2
const meter = digitalMeter
/** One in so many of the parts has two leads. */
const twoLeadsEach = 5
const sure = 0.99
/** Tests after which a person gives up. */
const mostTests = 12

/** Answers that were stated about as sure, and how many of them were right. */
export interface Bin {
  readonly from: number
  readonly to: number
  count: number
  stated: number
  right: number
}

/** How well parts were named with every pair of leads read. */
export interface AllPairs {
  readonly parts: number
  /** Answers that named the part, its fault and its leads; and those right but for the leads. */
  readonly right: number
  readonly rightKind: number
  readonly sure: number
  readonly meanPairs: number
  readonly bins: readonly Bin[]
  /** Milliseconds an answer took. */
  readonly msAnswer: number
}

/** How many tests parts took, each of two ways to the end. */
export interface Race {
  /** Parts that both ways brought to an answer of 99 %, and the mean number of tests each way took for these. */
  readonly parts: number
  readonly offered: number
  readonly other: number
}

/** How well parts were named by the tests that were offered, one after the other. */
export interface ByOffers {
  readonly parts: number
  /** Parts of which an answer came to 99 %, the right ones of them, and their mean number of tests. */
  readonly sure: number
  readonly rightWhenSure: number
  readonly meanTests: number
  /** Against asking all pairs first, and then what is offered: parts of three leads, and of two. */
  readonly three: Race
  readonly two: Race
  /** Parts of three leads that the six pairs alone settle. */
  readonly sixAlone: Race
  /** Parts of three leads, against asking all six pairs in one way after another. */
  readonly inOrder: Race
  /** Milliseconds to choose a test. */
  readonly msOffer: number
}

const edges = [0, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.85, 0.95, 0.99, 1.0000001]

interface Case {
  readonly leads: 2 | 3
  readonly part: SimulatedPart
}

const cases = (count: number): readonly Case[] =>
  Array.from({ length: count }, (_, n) => {
    const leads = n % twoLeadsEach === 0 ? 2 : 3
    return { leads, part: simulatedPart(seed, n, leads, meter) }
  })

const putsOf = ({ leads }: Case): readonly Trial[] =>
  Array.from({ length: leads * leads }, (_, k) => ({ plus: Math.floor(k / leads), minus: k % leads })).filter(
    (p) => p.plus !== p.minus,
  )

const allPairs = (one: Case): readonly LeadReading[] => putsOf(one).map(one.part.read)

const best = (p: Posterior): number => p.ranked[0]?.probability ?? 0
const isRight = (p: Posterior, { part }: Case): boolean => p.ranked[0]?.hypothesis === part.truth

/**
 * Names simulated parts, none of them in the shipped table, from all pairs of leads read with a meter's errors.
 *
 * @param clock milliseconds, for the time of an answer
 */
export function nameByAllPairs(count: number, clock: () => number): AllPairs {
  const bins = edges.slice(1).map((to, k): Bin => ({ from: edges[k]!, to, count: 0, stated: 0, right: 0 }))
  const sum = { right: 0, rightKind: 0, sure: 0, pairs: 0, ms: 0 }
  for (const one of cases(count)) {
    const readings = allPairs(one)
    const start = clock()
    const answer = weigh(readings, meter, one.leads)
    sum.ms += clock() - start
    sum.pairs += readings.length
    const { truth } = one.part
    const top = answer.ranked[0]?.hypothesis
    if (top?.condition === truth.condition && top.named === truth.named) sum.rightKind++
    if (best(answer) >= sure) sum.sure++
    const bin = bins.find((b) => best(answer) < b.to)!
    bin.count++
    bin.stated += best(answer)
    if (!isRight(answer, one)) continue
    bin.right++
    sum.right++
  }
  const { right, rightKind } = sum
  return {
    parts: count,
    right,
    rightKind,
    sure: sum.sure,
    meanPairs: sum.pairs / count,
    bins: bins.filter((b) => b.count > 0),
    msAnswer: sum.ms / count,
  }
}

/** What came of a part, and in how many tests. */
interface Named {
  readonly tests: number
  readonly isSure: boolean
  readonly isRight: boolean
}

/** Counts offers and the time they take. */
interface Watch {
  readonly clock: () => number
  readonly also: readonly ExtraTest[]
  offers: number
  ms: number
}

/** Takes the tests that are offered after some readings, until the answer is sure or nothing more is offered. */
function nameFrom(one: Case, before: readonly LeadReading[], watch: Watch): Named {
  const readings = [...before]
  let answer = weigh(readings, meter, one.leads)
  while (best(answer) < sure && readings.length < mostTests) {
    const start = watch.clock()
    const next = nextTest(answer, meter, { also: watch.also })
    watch.ms += watch.clock() - start
    watch.offers++
    if (next === undefined) break
    readings.push(one.part.read({ ...next, plus: next.plus - 1, minus: next.minus - 1 }))
    answer = weigh(readings, meter, one.leads)
  }
  return { tests: readings.length, isSure: best(answer) >= sure, isRight: isRight(answer, one) }
}

/** Ways in which somebody who is not told what to do next asks all pairs, one way after the other. */
const waysInOrder: readonly Omit<Trial, 'plus' | 'minus'>[] = [
  {},
  { range: '2M' },
  { joined: 'plus' },
  { joined: 'minus' },
  { range: '2M', joined: 'plus' },
  { range: '2M', joined: 'minus' },
]

/** Asks all pairs in one way, then in the next, until the answer is sure. */
function nameInOrder(one: Case): Named {
  const readings = [...allPairs(one)]
  let answer = weigh(readings, meter, one.leads)
  const ways = waysInOrder.slice(1).filter((way) => one.leads === 3 || way.joined === undefined)
  for (const trial of ways.flatMap((way) => putsOf(one).map((put) => ({ ...put, ...way })))) {
    if (best(answer) >= sure) break
    readings.push(one.part.read(trial))
    answer = weigh(readings, meter, one.leads)
  }
  return { tests: readings.length, isSure: best(answer) >= sure, isRight: isRight(answer, one) }
}

/** A part named in several ways. */
interface Compared {
  readonly leads: 2 | 3
  readonly offered: Named
  readonly pairsFirst: Named
  readonly inOrder: Named
}

function race(all: readonly Compared[], other: 'pairsFirst' | 'inOrder'): Race {
  const settled = all.filter((c) => c.offered.isSure && c[other].isSure)
  const mean = (way: 'offered' | typeof other): number =>
    settled.reduce((sum, c) => sum + c[way].tests, 0) / Math.max(1, settled.length)
  return { parts: settled.length, offered: mean('offered'), other: mean(other) }
}

/**
 * Names parts by the tests that are offered, and again by all pairs first and then what is offered: that is what asking
 * all six pairs comes to, since most parts are not settled by them.
 *
 * @param also tests beside those of the meter
 */
export function nameByOffers(count: number, clock: () => number, also: readonly ExtraTest[] = []): ByOffers {
  const watch: Watch = { clock, also, offers: 0, ms: 0 }
  const all = cases(count).map(
    (one): Compared => ({
      leads: one.leads,
      offered: nameFrom(one, [], watch),
      pairsFirst: nameFrom(one, allPairs(one), watch),
      inOrder: nameInOrder(one),
    }),
  )
  const named = all.filter((b) => b.offered.isSure).map((b) => b.offered)
  const three = all.filter((b) => b.leads === 3)
  return {
    parts: count,
    sure: named.length,
    rightWhenSure: named.filter((n) => n.isRight).length,
    meanTests: named.reduce((sum, n) => sum + n.tests, 0) / Math.max(1, named.length),
    three: race(three, 'pairsFirst'),
    two: race(
      all.filter((b) => b.leads === 2),
      'pairsFirst',
    ),
    sixAlone: race(
      three.filter((b) => b.pairsFirst.tests === 6),
      'pairsFirst',
    ),
    inOrder: race(three, 'inOrder'),
    msOffer: watch.ms / Math.max(1, watch.offers),
  }
}
