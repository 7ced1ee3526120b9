import { inventedGermanium, inventedPointContact, inventedSilicon } from '#catalog'
import type { Device } from '#core/circuit'
import type { Random } from '#core/numeric'
import { firstPoint, rehearse, specimen } from '#core/rehearsal'
import { planSheet, type RunSheet } from '#core/sheet'
import type { Reading, Tester } from '#core/tester'
import { type Bench, typeNamed } from './bench.ts'

/**
 * A kind of part to invent: a model of the middle one, and how far parts lie from it. Plausible to a restorer and made up
 * for measuring; no maker's figures.
 */
interface Kind {
  readonly type: string
  /** Of 100 parts. */
  readonly share: number
  readonly device: Device
  readonly spread: number
}

const kinds: readonly Kind[] = [
  { type: '2N1305', share: 22, device: inventedGermanium(125, 2.6e-6, 0.06), spread: 0.9 },
  { type: 'OC71', share: 14, device: inventedGermanium(60, 6e-6, 0.03), spread: 0.9 },
  { type: 'AC128', share: 14, device: inventedGermanium(110, 9e-6, 0.6), spread: 0.8 },
  { type: 'BC107', share: 20, device: inventedSilicon(230, 8e-15), spread: 0.8 },
  { type: 'BC109', share: 15, device: inventedSilicon(450, 8e-15), spread: 0.6 },
  {
    type: '1N34A',
    share: 15,
    device: inventedPointContact(40, 8e5),
    spread: 0.9,
  },
]

/** Of parts that lie in drawers, so many are shorted. */
const shorted = 0.012

/** What is read of each: enough to judge it by. */
const reads = ['short', 'I_CBO', 'I_CEO', 'I_C', 'h_FE', 'V_BE', 'I_R', 'I_F', 'V_F'] as const

/** Temperature of the room where the parts were read, degC. */
const roomC = 21

/** One part as it would be read on a tester. */
export interface Invented {
  readonly type: string
  readonly readings: readonly Reading[]
}

/**
 * Invents parts: their run sheets played with models, all on one tester of the description.
 *
 * @param seed the same seed gives the same tester
 */
export function inventor(bench: Bench, tester: Tester, seed: number): (random: Random, tag: string) => Invented {
  const sheets = new Map<string, RunSheet>()
  const sheetOf = (type: string): RunSheet => {
    const made = sheets.get(type) ?? firstPoint(planSheet(tester, typeNamed(bench, type)), reads)
    sheets.set(type, made)
    return made
  }
  return (random, part) => {
    const { type, device, spread } = drawnKind(random)
    const isShort = random.uniform() < shorted
    const own = specimen(device, { spread, seed: random.word(), name: part })
    const { readings } = rehearse(sheetOf(type), { part, device: own }, { ambientC: roomC, seed })
    const [check] = readings
    if (!isShort || check === undefined) return { type, readings }
    return { type, readings: [{ ...check, shown: { kind: 'state', state: 'short' }, seen: 'short' }] }
  }
}

function drawnKind(random: Random): Kind {
  let at = random.uniform() * kinds.reduce((sum, kind) => sum + kind.share, 0)
  for (const kind of kinds) {
    at -= kind.share
    if (at < 0) return kind
  }
  return kinds[0]!
}
