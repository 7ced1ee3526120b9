import type { PartType } from '#core/device'
import {
  doesWork,
  exactly,
  makeStage,
  type PartNumbers,
  type Parts,
  type Position,
  polarityAt,
  type StagePoint,
  stageAt,
  stageVerdict,
  tableOf,
} from '#core/stage'
import { publishedCutoff } from './cutoff.ts'
import type { Wanted } from './known.ts'
import { risenBy } from './leakage.ts'
import { defined, frequencyNeed, type GainNeed, type Need, type Use } from './need.ts'

/** A signal swings the current of an amplifying stage up to so many times its standing value. `common practice` */
const signalSwing = 2

/** A detector sees its peak and the capacitor that holds it. Textbook. */
const peakTwice = 2

/** Its hottest air is that of the position. */
type PositionUse = Omit<Use, 'ambientC'>

/** How far the window of a stage is looked for, as a ratio to either side, and how often it is halved. */
const windowSearch = { gain: 100, leakage: 1e4, halvings: 9 } as const

/**
 * What a place in a stage asks of the part that stands there: voltage, current and power as the stage gives them, and the
 * gains and leakages at which it still works, found by playing the part it was made for with others.
 *
 * @param parts with the part the stage was made for in its place
 * @param type what that part is, where it is a published one
 */
export function positionNeed(p: Position, parts: Parts, type: PartType | undefined, use: PositionUse = {}): Need {
  const place = p.template.places.find((x) => x.ref === p.place)!
  const part = parts[p.place]!
  const { toC } = p.demands
  const points = tableOf(makeStage(p, parts)).map((row) => row.point)
  const isDiode = place.kind === 'D'
  const voltage = voltageNeed(p, isDiode, use)
  return {
    name: part.name,
    family: isDiode ? 'diode' : 'bjt',
    material: part.material,
    hottestC: toC,
    inStage: true,
    own: stageVerdict(p, parts),
    ...(type === undefined ? {} : { type }),
    ...(isDiode ? { reverseV: voltage } : { polarity: polarityAt(p, place), collectorV: voltage }),
    ...emitterNeed(p, isDiode),
    ...(points.length === 0 ? {} : currents(p, points, use)),
    ...(isDiode ? {} : bipolarNeeds(p, parts, part, type, points, use)),
    notAsked: points.length === 0 ? ['current and power: the stage has no operating point with its own part'] : [],
  }
}

function voltageNeed({ supplyV }: Position, isDiode: boolean, { voltageV }: PositionUse): Wanted {
  if (voltageV !== undefined) return asked(voltageV)
  return isDiode
    ? { value: peakTwice * supplyV, why: 'twice the peak' }
    : { value: supplyV, why: 'the whole supply, when the part is cut off' }
}

/** Multivibrators drive the base backwards with the whole supply. */
const emitterNeed = ({ template, supplyV }: Position, isDiode: boolean) =>
  template.id === 'switch' && !isDiode
    ? { emitterV: { value: supplyV, why: 'where the base is driven backwards by the supply' } }
    : {}

const asked = (value: number): Wanted => ({ value, why: 'as you asked' })

function currents(p: Position, points: readonly StagePoint[], { currentA, powerW }: PositionUse): Partial<Need> {
  const most = Math.max(...points.map((x) => Math.abs(x.ic)))
  const isAmplifier = p.template.rooms.length > 0
  const why = isAmplifier ? 'twice the greatest standing current' : 'the greatest current of the stage'
  const greatest = Math.max(...points.map((x) => x.powerW))
  return {
    currentA: currentA === undefined ? { value: isAmplifier ? signalSwing * most : most, why } : asked(currentA),
    ...heat(p, powerW === undefined ? { value: greatest, why: 'the greatest heat of the stage' } : asked(powerW)),
  }
}

/** Power in free air, or with the case as warm as its heat sink lets it become. */
function heat({ heatSinkKPerW: sink, demands: { toC } }: Position, wanted: Wanted): Partial<Need> {
  if (!(wanted.value > 0)) return {}
  return sink === undefined
    ? { airW: wanted }
    : { caseW: { ...wanted, caseC: Math.round(10 * (toC + sink * wanted.value)) / 10 } }
}

function bipolarNeeds(
  p: Position,
  parts: Parts,
  part: PartNumbers,
  type: PartType | undefined,
  points: readonly StagePoint[],
  use: PositionUse,
): Partial<Need> {
  if (part.kind !== 'bipolar') return {}
  const holds = holdsNear(p, parts, p.template.rooms.length > 0 ? currentAt25(points) : undefined)
  const why = `for the stage to work with its current within ${Math.round(100 * p.demands.drift)} %`
  const window = gainWindow(holds, part, why)
  const atA = use.currentA ?? currentAt25(points) ?? part.atA
  const published = type === undefined ? undefined : publishedCutoff(type)
  const hz = published?.limit.min ?? published?.limit.typ
  const cutoff =
    use.frequencyHz !== undefined
      ? frequencyNeed(use.frequencyHz, part.gain.usual)
      : published === undefined || hz === undefined
        ? undefined
        : { symbol: published.symbol, hz, why: `as ${type!.type} has` }
  return defined({
    gain: { atA, ...window } satisfies GainNeed,
    cutoff,
    leakageA: leakageRoom(holds, part, p.demands.toC, why),
  })
}

/** Collector current nearest to 25 degC. */
function currentAt25(points: readonly StagePoint[]): number | undefined {
  const away = (x: StagePoint): number => Math.abs(x.ambientC - 25)
  const nearest = points.reduce<StagePoint | undefined>(
    (a, b) => (a === undefined || away(b) < away(a) ? b : a),
    undefined,
  )
  return nearest === undefined || nearest.ic === 0 ? undefined : Math.abs(nearest.ic)
}

/** Whether a stage works with a part, its current at 25 degC near enough to what it was. */
type Holds = (part: PartNumbers) => boolean

function holdsNear(p: Position, parts: Parts, wantedA: number | undefined): Holds {
  return (part) => {
    const s = makeStage(p, { ...parts, [p.place]: part })
    const outcome = stageAt(s, 25)
    if (outcome.kind !== 'point') return false
    if (wantedA !== undefined && Math.abs(outcome.point.ic / wantedA - 1) > p.demands.drift) return false
    return doesWork(p, { ...parts, [p.place]: part })
  }
}

type Bipolar = Extract<PartNumbers, { readonly kind: 'bipolar' }>

/** The gains between which a stage works with a part that is otherwise the same; an end that is not found is open. */
function gainWindow(holds: Holds, part: Bipolar, why: string): Omit<GainNeed, 'atA'> {
  const withGain = (gain: number): boolean => holds({ ...part, gain: exactly(gain) })
  const { usual } = part.gain
  if (!withGain(usual)) return {}
  const least = edge(withGain, usual, usual / windowSearch.gain)
  const most = edge(withGain, usual, usual * windowSearch.gain)
  return defined({
    least: least === undefined ? undefined : { value: least, why },
    most: most === undefined ? undefined : { value: most, why },
  })
}

/** The most leakage with which a stage works, brought to the hottest air. */
function leakageRoom(holds: Holds, part: Bipolar, toC: number, why: string): Wanted | undefined {
  const withLeakage = (a: number): boolean => holds({ ...part, leakageA: exactly(a) })
  const { usual } = part.leakageA
  if (!withLeakage(usual)) return undefined
  const most = edge(withLeakage, usual, usual * windowSearch.leakage)
  const by = risenBy({ material: part.material, family: 'bjt' }, 25, toC)!
  return most === undefined ? undefined : { value: most * by, why }
}

/** Where something stops to hold on the way from a good value to a far one, by halving the ratio; the good side of it. */
function edge(isGood: (x: number) => boolean, from: number, to: number): number | undefined {
  if (isGood(to)) return undefined
  let [good, bad] = [from, to]
  for (let k = 0; k < windowSearch.halvings; k++) {
    const middle = Math.sqrt(good * bad)
    if (isGood(middle)) good = middle
    else bad = middle
  }
  return good
}
