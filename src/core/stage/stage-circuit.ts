import {
  type Circuit,
  type Compiled,
  type Component,
  type Device,
  setPartTemperature,
  setTemperature,
  setValue,
} from '#core/circuit'
import { FaultError } from '#core/fault'
import { kelvin } from '#core/physics'
import type { PartNumbers } from './part-numbers.ts'
import type { Parts, Position } from './position.ts'
import type { Fixed, Template, TemplatePlace, TemplateThermistor } from './template.ts'
import { deviceOf, numbersAtC } from './transistor-device.ts'
import { turnedComponent, turnedDevice } from './turn-device.ts'

/** Sources that stand in the circuit so that textbook factors can be read: a current into the base, a voltage before it. */
export const probes = { leakage: 'I_CO', voltage: 'V_BE' } as const

/** Sign of the supply: a PNP stage has it below the common line. */
export const signOf = (p: Pick<Position, 'polarity'>): number => (p.polarity === 'NPN' ? 1 : -1)

/** Polarity of the transistor that belongs in a place. */
export function polarityAt(p: Pick<Position, 'polarity'>, place: TemplatePlace): 'NPN' | 'PNP' {
  const other = p.polarity === 'NPN' ? 'PNP' : 'NPN'
  return place.isOpposite === true ? other : p.polarity
}

/** Value of a thermistor at a temperature: R_25 exp(B (1/T - 1/298.15 K)). @see IEC 60539-1, B value (from memory) */
export const thermistorOhm = (ohm: number, betaK: number, temperatureC: number): number =>
  ohm * Math.exp(betaK * (1 / kelvin(temperatureC) - 1 / kelvin(numbersAtC)))

/** Nodes that a wire joins, where a resistor that may be left out is not there. */
function wires(t: Template, ohm: Position['ohm']): (node: string) => string {
  const joined = new Map<string, string>()
  for (const r of t.resistors)
    if (r.absent === 'wire' && ohm[r.ref] === undefined) {
      const [a, b] = r.nodes
      joined.set(b === '0' ? a : b, b === '0' ? b : a)
    }
  return (node) => {
    let at = node
    while (joined.has(at)) at = joined.get(at)!
    return at
  }
}

/** A node of the template by its name in the circuit. */
export const nodeOf = (p: Position, node: string): string => wires(p.template, p.ohm)(node)

/**
 * The circuit of a position with a part in every place. A probe current from collector to base of the place that is
 * looked at, and a probe voltage at its base, are in it with the value 0.
 *
 * @throws {FaultError} `usage` where a place has no part, or one of another kind or polarity
 */
export function stageCircuit(p: Position, parts: Parts): Circuit {
  const { template: t } = p
  const at = wires(t, p.ohm)
  const sign = signOf(p)
  const components: Component[] = []
  for (const s of t.sources) {
    const value = (s.isDriven === true ? t.states[0]!.drive : (s.share ?? 1)) * sign * p.supplyV
    const shared = { ref: s.ref, nodes: [at(s.node), at(s.minus ?? '0')] as const, value }
    components.push(
      s.isDriven === true || p.supplyOhm === 0
        ? { kind: 'V', ...shared }
        : { kind: 'B', ...shared, resistance: p.supplyOhm },
    )
  }
  for (const r of [...t.resistors, ...t.thermistors]) {
    const ohm = p.ohm[r.ref]
    if (ohm !== undefined)
      components.push({ kind: 'R', ref: r.ref, nodes: [at(r.nodes[0]), at(r.nodes[1])], value: ohm })
  }
  for (const place of t.places) components.push(...placed(p, place, place.nodes.map(at)))
  const devices = Object.fromEntries(t.places.map((place) => [place.ref, standingIn(p, place, parts[place.ref])]))
  if (t.fixed === undefined) return { title: p.title, components, devices }
  return { title: p.title, ...withFixed(t.fixed, p.polarity, components, devices) }
}

function withFixed(
  fixed: Fixed,
  polarity: Position['polarity'],
  own: readonly Component[],
  devices: Circuit['devices'],
) {
  const isTurned = polarity === 'PNP'
  const theirs = Object.entries(fixed.devices).map(([name, d]) => [name, isTurned ? turnedDevice(d) : d])
  return {
    components: [...own, ...(isTurned ? fixed.components.map(turnedComponent) : fixed.components)],
    devices: { ...devices, ...Object.fromEntries(theirs) },
    ...(fixed.gminS === undefined ? {} : { gminS: fixed.gminS }),
  }
}

/** The device of what stands in a place: of its part, or the place's own where it is not the one looked at. */
function standingIn(p: Position, place: TemplatePlace, part: PartNumbers | undefined): Device {
  if (part !== undefined || place.device === undefined || place.ref === p.place)
    return deviceOf(partFor(p, place, part))
  return p.polarity === 'PNP' ? turnedDevice(place.device) : place.device
}

/** A part in its place; where it is the one looked at, with the probes. */
function placed(p: Position, place: TemplatePlace, nodes: readonly string[]): readonly Component[] {
  const { ref, kind } = place
  if (kind === 'D') {
    const turned = p.polarity === 'PNP' ? [...nodes].reverse() : nodes
    return [{ kind, ref, nodes: turned, device: ref }]
  }
  if (ref !== p.place) return [{ kind, ref, nodes, device: ref }]
  const [c, b, e] = nodes as [string, string, string]
  const inner = `${ref}_base`
  const isNpn = polarityAt(p, place) === 'NPN'
  return [
    { kind: 'V', ref: probes.voltage, nodes: isNpn ? [b, inner] : [inner, b], value: 0 },
    { kind: 'I', ref: probes.leakage, nodes: isNpn ? [c, inner] : [inner, c], value: 0 },
    { kind, ref, nodes: [c, inner, e], device: ref },
  ]
}

function partFor(p: Position, place: TemplatePlace, part: PartNumbers | undefined): PartNumbers {
  const fault = (problem: string, mend: string): FaultError => new FaultError({ code: 'usage', problem, mend })
  const wanted = place.kind === 'D' ? 'diode' : `${polarityAt(p, place)} transistor`
  if (part === undefined)
    throw fault(`Nothing is said of the ${place.role}, ${place.ref}`, `Name a ${wanted} for it under parts.`)
  const found = part.kind === 'diode' ? 'diode' : `${part.polarity} transistor`
  if (found === wanted) return part
  throw fault(
    `${part.name} is ${article(found)}, and ${place.ref} wants ${article(wanted)}`,
    place.kind === 'Q' && part.kind === 'bipolar'
      ? 'Take a part of the other polarity, or turn the whole stage: polarity, supply and electrolytics.'
      : 'Name another part.',
  )
}

const article = (kind: string): string => `${kind.startsWith('NPN') ? 'an' : 'a'} ${kind}`

/** Brings all parts of a stage, thermistors with them, to the temperature of the air, degC. */
export function setAmbient(c: Compiled, p: Position, ambientC: number): void {
  setTemperature(c, kelvin(ambientC))
  for (const t of p.template.thermistors) setThermistor(c, p, t, ambientC)
}

function setThermistor(c: Compiled, p: Position, t: TemplateThermistor, temperatureC: number): void {
  const ohm = p.ohm[t.ref]
  if (ohm !== undefined) setValue(c, t.ref, thermistorOhm(ohm, p.betaK[t.ref] ?? t.betaK, temperatureC))
}

/** How much of the rise of the part that is looked at warms others: as the position says, else as its template does. */
export const couplingOf = ({ coupling, template, place }: Position): Readonly<Record<string, number>> => ({
  ...template.heats?.[place],
  ...coupling,
})

/**
 * Warms what is coupled to the part that is looked at.
 *
 * @param riseK how far that part's junction stands above the air
 */
export function warmCoupled(c: Compiled, p: Position, ambientC: number, riseK: number): void {
  for (const [ref, share] of Object.entries(couplingOf(p))) {
    if (share === 0) continue
    const temperatureC = ambientC + share * riseK
    const thermistor = p.template.thermistors.find((t) => t.ref === ref)
    if (thermistor === undefined) setPartTemperature(c, ref, kelvin(temperatureC))
    else setThermistor(c, p, thermistor, temperatureC)
  }
}

/** Drives a stage into one of its states. */
export function setState(c: Compiled, p: Position, drive: number, supplyV = p.supplyV): void {
  for (const s of p.template.sources)
    setValue(c, s.ref, signOf(p) * supplyV * (s.isDriven === true ? drive : (s.share ?? 1)))
}
