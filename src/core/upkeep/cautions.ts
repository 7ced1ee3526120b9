import { type Caution, cautions } from '#core/sheet'

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
