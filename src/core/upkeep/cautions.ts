import { type Caution, cautions } from '#core/sheet'
import type { Tester } from '#core/tester'

/** What work at the bench puts on parts and hands. */
export interface Exposure {
  readonly voltageV?: number
  readonly currentA?: number
  readonly powerW?: number
  /** Whether cells are handled. */
  readonly cells?: boolean
}

/** From here on a supply can hurt, a current comes from cells that must be fused, a part burns (see `cautions`). */
const hazardousV = 60
const highA = 1
const hotW = 1

/** Cautions that go with work at such voltages, currents and powers. */
export const cautionsFor = ({
  voltageV = 0,
  currentA = 0,
  powerW = 0,
  cells = false,
}: Exposure): readonly Caution[] => [
  ...(voltageV > hazardousV ? [cautions.hazardousVoltage, cautions.localRules] : []),
  ...(currentA >= highA || cells ? [cautions.shortedCells] : []),
  ...(cells ? [cautions.leakingCells] : []),
  ...(powerW > hotW ? [cautions.hotParts] : []),
]

/** What the supplies of a tester put on whoever opens it. */
export const testerExposure = (t: Tester): Exposure => ({
  voltageV: Math.max(0, ...t.supplies.map((s) => Math.max(s.max ?? 0, ...s.taps))),
  currentA: Math.max(0, ...t.supplies.map((s) => s.maxA ?? 0)),
  cells: t.supplies.some((s) => s.kind === 'cells'),
})
