import { type Filling, fillRun, type PartStatus, parts as partsIn, type Summary, summaryOf } from '#book'
import { FaultError } from '#core/fault'
import { Random } from '#core/numeric'
import type { Tester } from '#core/tester'
import { type Bench, bookOf, testerNamed } from './bench.ts'
import { type Invented, inventor } from './invented-part.ts'
import { keepTester, outcomesOf } from './keep.ts'
import { judgeReduced, reduceList } from './measure.ts'
import { patiently } from './patience.ts'
import { type Progress, step, unwatched } from './progress.ts'

export interface FillWishes {
  /** How many parts. */
  readonly parts: number
  /** The same seed gives the same parts. */
  readonly seed: number
}

/** So many parts are really computed; the others are read like one of them. */
const computed = 600
/** Parts of one run, and of one step. */
const partsAtOnce = 250

/**
 * Fills a book with invented parts, to see how it behaves when it is large. Their readings are those of the Larkfield
 * tester; what they come to is computed as ever for some hundreds, and the rest are read like one of these.
 *
 * @throws {FaultError} `usage` the same seed was filled in before; it was cancelled
 */
export async function fillBook(bench: Bench, wishes: FillWishes, progress: Progress = unwatched): Promise<number> {
  const known = testerNamed(bench, 'larkfield')
  await requireFresh(bench, wishes.seed)
  await patiently(() => keepTester(bench, known))
  const models = inventModels(bench, known.tester, wishes, progress)
  const random = new Random(wishes.seed, 'drawer')
  for (let at = 0; at < wishes.parts; at += partsAtOnce) {
    step(progress, at, wishes.parts, 'Filling the drawers')
    const count = Math.min(partsAtOnce, wishes.parts - at)
    const parts = Array.from({ length: count }, (_, i) => placed(random, models, wishes.seed, at + i))
    const filling: Filling = { tester: known.tester.id, ambientC: 21, ambientU: 1, note: 'Invented parts', parts }
    await patiently(() => fillRun(bookOf(bench), filling, bench.now()))
    await new Promise((keep) => setImmediate(keep))
  }
  progress.tell(wishes.parts, wishes.parts, 'Filling the drawers')
  return wishes.parts
}

interface Model extends Invented {
  readonly summary: Summary
}

function inventModels(bench: Bench, tester: Tester, { parts, seed }: FillWishes, progress: Progress): readonly Model[] {
  const random = new Random(seed, 'parts')
  const count = Math.min(computed, parts)
  const invent = inventor(bench, tester, seed)
  return Array.from({ length: count }, (_, i) => {
    if (i % 20 === 0) step(progress, i, count, 'Inventing parts')
    const part = invent(random, `model-${i}`)
    const [outcome] = outcomesOf(judgeReduced(reduceList(bench, { tester, readings: part.readings })))
    return { ...part, summary: summaryOf(outcome!.result, outcome!.verdicts) }
  })
}

const tagOf = (seed: number, i: number): string => `F${seed}-${String(i + 1).padStart(5, '0')}`

async function requireFresh(bench: Bench, seed: number): Promise<void> {
  const [first] = (await partsIn(bookOf(bench))).filter((one) => one.tag === tagOf(seed, 0))
  if (first === undefined) return
  throw new FaultError({
    code: 'usage',
    problem: `The parts of seed ${seed} are in this book already`,
    mend: 'Take another seed.',
  })
}

const trees = ['alder', 'ash', 'birch', 'elm', 'hazel', 'larch', 'linden', 'oak', 'rowan', 'yew'] as const
const notes = [
  'leads cut short',
  'marking worn, read with a lamp',
  'from a bag of mixed parts',
  'noisy in the first stage',
  'runs warm',
  'second reading agreed',
] as const

const pick = <T>(random: Random, list: readonly T[]): T => list[random.integer(list.length)]!

/** A part like one of the models, with a tag, a lot and a place of its own. */
function placed(random: Random, models: readonly Model[], seed: number, i: number): Filling['parts'][number] {
  const { type, readings, summary } = pick(random, models)
  const tag = tagOf(seed, i)
  const status = statusOf(random, summary)
  return {
    tag,
    type,
    lot: `${pick(random, trees)} ${1 + Math.floor(i / 2500)}`,
    place: `drawer ${1 + random.integer(40)}, box ${1 + random.integer(12)}`,
    ...(random.uniform() < 0.06 ? { note: pick(random, notes) } : {}),
    status,
    ...(status === 'used' ? { usedIn: `receiver ${1 + random.integer(30)}, Q${1 + (i % 9)}` } : {}),
    readings: readings.map((one) => ({ ...one, part: tag })),
    summary,
  }
}

function statusOf(random: Random, { word }: Summary): PartStatus {
  const at = random.uniform()
  if (word === 'does not conform') return at < 0.5 ? 'bad' : at < 0.6 ? 'scrapped' : 'doubtful'
  return at < 0.7 ? 'kept' : at < 0.88 ? 'good' : 'used'
}
