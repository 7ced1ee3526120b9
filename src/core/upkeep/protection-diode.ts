import type { DiodeCard } from '#core/physics'
import type { MovementDiodes } from '#core/tester'

/** A kind of diode that is laid across movements. */
export interface ProtectionDiode {
  readonly name: string
  /** A likely specimen: invented cards that keep the published limits of common types (see the test). */
  readonly card: DiodeCard
  /** Diodes in series each way. */
  readonly inSeries: 1 | 2
  /** Direct current such a diode bears, A: that of common types of the kind. */
  readonly mostA: number
}

const silicon: DiodeCard = { is: 3.2e-9, n: 1.86, rs: 0.75, bv: 100, ibv: 5e-6, nbv: 1, eg: 1.11, xti: 3, tnom: 25 }
const rectifier: DiodeCard = { is: 2.4e-11, n: 1.15, rs: 0.035, bv: 400, ibv: 5e-6, nbv: 1, eg: 1.11, xti: 3, tnom: 25 }
const schottky: DiodeCard = { is: 2.1e-8, n: 1.06, rs: 3.2, bv: 40, ibv: 1e-5, nbv: 1.2, eg: 0.69, xti: 2, tnom: 25 }
const germanium: DiodeCard = { is: 6.5e-7, n: 1.38, rs: 42, eg: 0.66, xti: 3, tnom: 25 }

/** Diodes to choose from, those that hold the movement lowest first. */
export const protectionDiodes = {
  germanium: { name: 'germanium', card: germanium, inSeries: 1, mostA: 0.05 },
  schottky: { name: 'Schottky', card: schottky, inSeries: 1, mostA: 0.2 },
  silicon: { name: 'silicon, signal', card: silicon, inSeries: 1, mostA: 0.2 },
  rectifier: { name: 'silicon, rectifier', card: rectifier, inSeries: 1, mostA: 1 },
  'two-schottky': { name: 'two Schottky in series', card: schottky, inSeries: 2, mostA: 0.2 },
  'two-silicon': { name: 'two silicon in series', card: silicon, inSeries: 2, mostA: 0.2 },
} as const satisfies Readonly<Record<MovementDiodes, ProtectionDiode>>

export type ProtectionDiodeId = keyof typeof protectionDiodes
