import { FaultError } from '#core/fault'
import { nearNames } from '#core/text'
import { type Compiled, instanceNamed } from './compile.ts'
import { type Instance, width } from './instance.ts'

/** A number of an operating point: a node's voltage, a source's current, or a device's current or voltage. */
export type Output =
  | { readonly kind: 'node'; readonly node: string }
  | { readonly kind: 'source'; readonly ref: string }
  | { readonly kind: 'current'; readonly ref: string; readonly lead: number }
  | { readonly kind: 'voltage'; readonly ref: string; readonly plus: number; readonly minus: number }

type Reading = { readonly lead: number } | { readonly plus: number; readonly minus: number }

/** What can be asked of each kind of device, by the names operating points use. */
const readings: Readonly<Record<Instance['kind'], Readonly<Record<string, Reading>>>> = {
  diode: { if: { lead: 0 }, vf: { plus: 0, minus: 1 } },
  bipolar: { ic: { lead: 0 }, ib: { lead: 1 }, vce: { plus: 0, minus: 2 }, vbe: { plus: 1, minus: 2 } },
  jfet: { id: { lead: 0 }, ig: { lead: 1 }, vds: { plus: 0, minus: 2 }, vgs: { plus: 1, minus: 2 } },
  mosfet: { id: { lead: 0 }, vds: { plus: 0, minus: 2 }, vgs: { plus: 1, minus: 2 } },
}

/** Inner local node of each lead; -1 where the lead has none. */
const innerOf: Readonly<Record<Instance['kind'], readonly number[]>> = {
  diode: [2, -1],
  bipolar: [3, 4, 5],
  jfet: [3, -1, 4],
  mosfet: [4, -1, 5, -1],
}

/**
 * Reads what is asked for: `node:c`, `source:VCC`, or `Q1.ic` with the names that operating points use.
 *
 * @throws {FaultError} `not-found` with near names
 */
export function readOutput(c: Compiled, text: string): Output {
  const [head = '', rest = ''] = text.split(/:(.*)/s)
  if (head === 'node') {
    if (!c.nodeRow.has(rest)) throw notFound('node', rest, [...c.nodeRow.keys()])
    return { kind: 'node', node: rest }
  }
  if (head === 'source') {
    if (!c.sources.refs.includes(rest)) throw notFound('source', rest, c.sources.refs)
    return { kind: 'source', ref: rest }
  }
  const [ref = '', key = ''] = text.split('.')
  const known = readings[instanceNamed(c, ref).kind]
  if (!Object.hasOwn(known, key)) throw notFound(`reading of ${ref}`, key, Object.keys(known))
  const found = known[key]!
  return 'lead' in found ? { kind: 'current', ref, lead: found.lead } : { kind: 'voltage', ref, ...found }
}

function notFound(what: string, name: string, all: readonly string[]): FaultError {
  const mend = `Known: ${all.join(', ')}.`
  return new FaultError({ code: 'not-found', what, name, near: nearNames(name, all), mend })
}

/** Unit of an output. */
export const outputUnit = (o: Output): 'V' | 'A' => (o.kind === 'node' || o.kind === 'voltage' ? 'V' : 'A')

/** Rows of a device whose currents add up to that of a lead: the lead, and its inner node where they are one. */
export function leadRows(i: Instance, lead: number): readonly number[] {
  const inner = innerOf[i.kind][lead]!
  return inner >= 0 && i.at[inner] === i.at[lead] ? [lead, inner] : [lead]
}

/** Value of an output at the point the circuit stands at; the devices must be stamped there. */
export function outputValue(c: Compiled, o: Output): number {
  switch (o.kind) {
    case 'node':
      return c.x[c.nodeRow.get(o.node)!]!
    case 'source':
      return -c.x[c.sources.rows[c.sources.refs.indexOf(o.ref)]!]!
    case 'current': {
      const i = instanceNamed(c, o.ref)
      return i.sign * leadRows(i, o.lead).reduce((sum, k) => sum + i.f[k]!, 0)
    }
    case 'voltage': {
      const i = instanceNamed(c, o.ref)
      return i.sign * (c.x[i.at[o.plus]!]! - c.x[i.at[o.minus]!]!)
    }
  }
}

/** Adds the slopes of an output with the unknowns of the circuit into a vector of zeros. */
export function outputSlopes(c: Compiled, o: Output, into: Float64Array): void {
  if (o.kind === 'node') into[c.nodeRow.get(o.node)!] = 1
  else if (o.kind === 'source') into[c.sources.rows[c.sources.refs.indexOf(o.ref)]!] = -1
  else {
    const i = instanceNamed(c, o.ref)
    if (o.kind === 'voltage') {
      into[i.at[o.plus]!]! += i.sign
      into[i.at[o.minus]!]! -= i.sign
    } else
      for (const row of leadRows(i, o.lead))
        for (let k = 0; k < i.size; k++) into[i.at[k]!]! += i.sign * i.j[row * width + k]!
  }
}
