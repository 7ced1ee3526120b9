import { devicePointOf } from '#core/circuit'
import type { Position } from './position.ts'
import { couplingOf, nodeOf, polarityAt, signOf, thermistorOhm } from './stage-circuit.ts'
import { type Stage, type StagePoint, stageAt } from './stage-point.ts'
import type { State, TemplatePlace } from './template.ts'

/** Every voltage and current of a stage at one temperature of the air. */
export interface Levels {
  readonly point: StagePoint
  /** State of the template it is driven to. */
  readonly state: string
  /** Voltage of each node of the template against the common one, V. */
  readonly nodeV: Readonly<Record<string, number>>
  /**
   * Current of each resistor and diode from its first node to its second, A; of a transistor, into each of its leads:
   * `Q1.c`, `Q1.b`, `Q1.e`.
   */
  readonly branchA: Readonly<Record<string, number>>
}

/**
 * Solves a stage and reads every node and branch of it.
 *
 * @returns nothing where the stage has no point at this temperature
 * @example levelsAt(makeStage(position, parts), 25)?.nodeV.c // V_C
 */
export function levelsAt(
  s: Stage,
  ambientC: number,
  state: State = s.position.template.states[0]!,
): Levels | undefined {
  const outcome = stageAt(s, ambientC, state)
  return outcome.kind === 'point' ? levelsOf(s, outcome.point, state) : undefined
}

/**
 * Reads every node and branch of a stage where it stands: what it was solved for last must be this point.
 *
 * @param point as `stageAt` gave it just now
 */
export function levelsOf(s: Stage, point: StagePoint, state: State = s.position.template.states[0]!): Levels {
  const { position: p } = s
  const nodeV = voltagesOf(s)
  const branchA: Record<string, number> = {}
  for (const r of [...p.template.resistors, ...p.template.thermistors]) {
    const ohm = ohmAt(p, r.ref, point)
    if (ohm !== undefined) branchA[r.ref] = (nodeV[r.nodes[0]]! - nodeV[r.nodes[1]]!) / ohm
  }
  for (const place of p.template.places) Object.assign(branchA, placeCurrents(s, place))
  return { point, state: state.name, nodeV, branchA }
}

/** Nodes of a template, the common one first. */
const nodesOf = ({ template: t }: Position): readonly string[] => [
  ...new Set([
    '0',
    ...[...t.sources.map((x) => x.node), ...[...t.resistors, ...t.thermistors, ...t.places].flatMap((x) => x.nodes)],
  ]),
]

function voltagesOf({ c, position: p }: Stage): Readonly<Record<string, number>> {
  const at = (node: string): number => {
    const row = c.nodeRow.get(nodeOf(p, node))
    return row === undefined ? 0 : c.x[row]!
  }
  return Object.fromEntries(nodesOf(p).map((node) => [node, at(node)]))
}

function ohmAt(p: Position, ref: string, { ambientC, junctionC }: StagePoint): number | undefined {
  const ohm = p.ohm[ref]
  const thermistor = p.template.thermistors.find((t) => t.ref === ref)
  if (ohm === undefined || thermistor === undefined) return ohm
  const warmedC = ambientC + (couplingOf(p)[ref] ?? 0) * (junctionC - ambientC)
  return thermistorOhm(ohm, p.betaK[ref] ?? thermistor.betaK, warmedC)
}

function placeCurrents({ c, position: p }: Stage, place: TemplatePlace): Readonly<Record<string, number>> {
  const d = devicePointOf(c, place.ref)
  if (d.kind === 'diode') return { [place.ref]: signOf(p) * d.if }
  if (d.kind !== 'bipolar') return {}
  const sign = polarityAt(p, place) === 'NPN' ? 1 : -1
  const { ref } = place
  return { [`${ref}.c`]: sign * d.ic, [`${ref}.b`]: sign * d.ib, [`${ref}.e`]: -sign * (d.ic + d.ib) }
}
