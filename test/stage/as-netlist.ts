import {
  couplingOf,
  type Parts,
  type Position,
  type PositionRead,
  readPosition,
  stageCircuit,
  type Template,
} from '#core/stage'
import { dataDocument } from '#core/text'

/** What is asked of a stage, as a file says it, whichever way its circuit is written. */
export interface Asked {
  readonly [key: string]: unknown
}

/** A file that describes a stage by its template. */
export const asTemplate = (t: Template, polarity: Position['polarity'], ohm: Position['ohm'], asked: Asked): Asked => ({
  ...asked,
  title: 'one stage',
  stage: t.id,
  polarity,
  values: ohm,
})

/** A name as SPICE has it: its first letter says what it is. */
const spice = (ref: string): string => (ref === 'NTC' ? 'RNTC' : ref)

/** A file that describes the same stage by the netlist of its circuit, and all the template says in its own words. */
export function asNetlist(position: Position, parts: Parts, asked: Asked): Asked {
  const { template: t, polarity } = position
  const { components } = stageCircuit({ ...position, supplyOhm: 0 }, parts)
  const supplyV = (polarity === 'PNP' ? -1 : 1) * position.supplyV
  const isProbe = (ref: string): boolean => ref === 'I_CO' || ref === 'V_BE'
  const cards = components.flatMap((c) => {
    if (isProbe(c.ref)) return []
    if (!('device' in c)) return [`${spice(c.ref)} ${c.nodes.join(' ')} ${c.value}`]
    const nodes = c.nodes.map((n) => n.replace(/^Q\d_base$/, t.places.find((p) => p.ref === c.ref)!.nodes[1]!))
    return [`${c.ref} ${nodes.join(' ')} m${c.ref}`]
  })
  const models = t.places.map((p) => {
    const isNpn = (polarity === 'NPN') !== (p.isOpposite === true)
    return `.model m${p.ref} ${p.kind === 'D' ? 'D' : isNpn ? 'NPN' : 'PNP'}`
  })
  const driven = t.sources.find((s) => s.isDriven === true)
  const states = Object.fromEntries(t.states.map((s) => [s.name, s.drive * supplyV]))
  return {
    ...asked,
    title: 'one stage',
    netlist: ['one stage', ...cards, ...models, '.end'].join('\n'),
    place: position.place,
    beta: Object.fromEntries(t.thermistors.map((r) => [spice(r.ref), r.betaK])),
    rebias: t.settles.filter((ref) => position.ohm[ref] !== undefined),
    clipping: t.rooms.map(({ nodes, isTransistor = false, says }) => ({
      between: polarity === 'PNP' ? [...nodes].reverse() : nodes,
      transistor: isTransistor,
      says,
    })),
    coupling: Object.fromEntries(Object.entries(couplingOf(position)).map(([ref, share]) => [spice(ref), share])),
    ...(driven === undefined ? {} : { drive: { source: driven.ref, states } }),
    ends: t.ends.map(({ state, nodes, share, says }) => ({ state, between: nodes, most: share, says })),
  }
}

export const readData = (file: Asked): PositionRead => readPosition(dataDocument(file))
