import { median, quantileOfSorted, Random } from '#core/numeric'
import {
  exactly,
  makeStage,
  type PartNumbers,
  type Position,
  rankParts,
  reBias,
  stageAnswer,
  stageGlance,
  stageSpread,
  stageVerdict,
  templates,
} from '#core/stage'
import { diode, partsFor, positionOf, transistor } from '../test/stage/positions.ts'

/**
 * How quickly stages are answered: `node scripts/bench.mjs stage`. Time of one core, so that what else runs does not
 * count; invented parts with ratings, which heat themselves. As Markdown.
 */
const ratings = { rthKPerW: 300, rthCaseKPerW: 60, junctionMaxC: 75, voltageV: 20, currentA: 0.1 }
const say = (line: string): void => void process.stdout.write(`${line}\n`)
const ms = (t: number): string => `${t.toPrecision(2)} ms`

/** Milliseconds of one core that each run took, after runs that do not count. */
function spent(count: number, use: (k: number) => void, before = Math.ceil(count / 4)): Float64Array {
  for (let k = 0; k < before; k++) use(k)
  return Float64Array.from({ length: count }, (_, k) => {
    const began = process.cpuUsage()
    use(k)
    const { user, system } = process.cpuUsage(began)
    return (user + system) / 1000
  }).sort()
}

const middle = (times: Float64Array): number => median([...times])

const stageOf = (id: string): { readonly position: Position; readonly main: PartNumbers } => {
  const position = positionOf(id, { polarity: 'NPN' })
  return { position, main: position.place.startsWith('D') ? diode : transistor({ polarity: 'NPN', ratings }) }
}

say(
  '| stage | a slider moved: middle, worst of 400 | verdict over 0 to 50 °C | whole answer with 500 stages of spread | re-bias to silicon, E24 |',
)
say('|---|---|---|---|---|')
for (const { id, rooms } of templates) {
  const { position, main } = stageOf(id)
  const parts = partsFor(position, main)
  const random = new Random(1, id)
  const moves = Array.from({ length: 400 }, () => ({
    ambientC: 50 * random.uniform(),
    supplyV: position.supplyV * (0.7 + 0.5 * random.uniform()),
  }))
  // from the numbers of the part to the word: the stage is made anew, as where the part is another one
  const moved = spent(400, (k) => stageGlance(makeStage(position, parts), moves[k]!))
  const verdict = spent(12, () => stageVerdict(position, parts))
  const answer = spent(5, () => stageAnswer(position, parts))
  const silicon = transistor({
    polarity: 'NPN',
    material: 'Si',
    gain: exactly(250),
    leakageA: exactly(1e-9),
    surface: 1,
    vbeV: exactly(0.62),
  })
  const biased = rooms.length === 0 ? undefined : middle(spent(5, () => reBias(position, parts, silicon)))
  say(
    `| ${id} | ${ms(middle(moved))}, ${ms(quantileOfSorted(moved, 1))} | ${ms(middle(verdict))} | ${ms(middle(answer))} | ${biased === undefined ? '' : ms(biased)} |`,
  )
}

const random = new Random(5, 'drawer')
const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
const drawer = Array.from({ length: 1000 }, (_, k) =>
  transistor({ name: `P${k}`, gain: exactly(between(25, 200)), leakageA: exactly(between(1e-6, 3e-5)), ratings }),
)
say('')
for (const id of ['fixed-bias', 'divider', 'direct-pair']) {
  const position = positionOf(id)
  const [time] = spent(1, () => rankParts(position, partsFor(position), drawer), 0)
  const { ranked } = rankParts(position, partsFor(position), drawer)
  const works = ranked.filter((r) => r.verdict.word === 'works').length
  say(`A drawer of 1,000 parts ranked in ${id}: ${(time! / 1000).toFixed(2)} s; ${works} work.`)
}
const { position, main } = stageOf('divider')
const times = spent(3, () => stageSpread(position, partsFor(position, main), [0, 25, 50], { count: 10_000, seed: 1 }))
say(`A spread of 10,000 divider stages at three temperatures: ${(middle(times) / 1000).toFixed(2)} s.`)
