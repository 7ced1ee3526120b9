import { type Fault, FaultError } from '#core/fault'
import { checkWith, documentFault, nearNames, type TextDocument } from '#core/text'
import { exactly, type PartNumbers, type StageRatings, usualNumbers, usualSurface } from './part-numbers.ts'
import { type Demands, demandDefaults, type Position } from './position.ts'
import { type GivenNumbers, type PositionFile, positionSchema } from './position-schema.ts'
import { polarityAt } from './stage-circuit.ts'
import type { Template, TemplatePlace } from './template.ts'
import { templateNamed } from './templates.ts'
import { atCurrent } from './transistor-device.ts'

/** What a position wants in a place: a published type, or a part in numbers. */
export type WantedPart = { readonly type: string } | { readonly numbers: PartNumbers }

/** A position with what stands in its places. */
export interface PositionRead {
  readonly position: Position
  readonly wanted: Readonly<Record<string, WantedPart>>
}

/**
 * Reads a position from a JSON or YAML document, as docs/reference/stage.md describes.
 *
 * @throws {FaultError} every fault of the document together
 */
export function readPosition(document: TextDocument): PositionRead {
  const checked = checkWith(positionSchema, document)
  if (!checked.ok) throw new FaultError(checked.faults)
  const file = checked.data
  const template = templateNamed(file.stage)
  const faults = [...valueFaults(document, file, template), ...placeFaults(document, file, template)]
  if (faults.length > 0) throw new FaultError(faults)
  const position = positionOf(file, template)
  const wanted = Object.fromEntries(
    template.places.flatMap((place) => {
      const given = file.parts[place.ref]
      if (given === undefined) return []
      return [[place.ref, typeof given === 'string' ? { type: given } : { numbers: partOf(given, position, place) }]]
    }),
  )
  return { position, wanted }
}

function positionOf(file: PositionFile, template: Template): Position {
  const { tolerance = demandDefaults.tolerance } = file
  const { value: supplyV, u } = file.supply
  return {
    title: file.title,
    template,
    polarity: file.polarity,
    supplyV,
    supplyTolerance: u === undefined ? demandDefaults.supplyTolerance : u / supplyV,
    supplyOhm: file.supplyResistance,
    ohm: mapped(file.values, (v) => v.value),
    tolerance: mapped(file.values, (v) => (v.u === undefined ? tolerance : v.u / v.value)),
    betaK: file.beta,
    place: file.place ?? template.main,
    demands: demandsOf(file, supplyV),
  }
}

const mapped = <T>(of: Readonly<Record<string, T>>, make: (one: T) => number): Record<string, number> =>
  Object.fromEntries(Object.entries(of).map(([key, one]) => [key, make(one)]))

const demandsOf = ({ from, to, sag, ageing, swing, drift }: PositionFile, supplyV: number): Demands => ({
  fromC: from ?? demandDefaults.fromC,
  toC: to ?? demandDefaults.toC,
  sag: sag ?? demandDefaults.sag,
  ageing: ageing ?? demandDefaults.ageing,
  swingV: swing ?? demandDefaults.swingShare * supplyV,
  drift: drift ?? demandDefaults.drift,
})

function valueFaults(document: TextDocument, file: PositionFile, t: Template): readonly Fault[] {
  const known = [...t.resistors, ...t.thermistors]
  const refs = known.map((r) => r.ref)
  const strange = Object.keys(file.values).filter((ref) => !refs.includes(ref))
  const missing = known.filter((r) => r.absent === undefined && file.values[r.ref] === undefined)
  const at = (ref: string, problem: string, mend: string): Fault =>
    documentFault(document, ['values', ref], problem, mend)
  return [
    ...strange.map((ref) => at(ref, 'is no resistor of this stage', didYouMean(ref, refs))),
    ...missing.map((r): Fault => {
      const problem = `The stage ${t.id} has no value for ${r.ref}, the ${r.role}`
      return { code: 'usage', problem, mend: `Add ${r.ref}: ${r.ohm} ohm under values.` }
    }),
  ]
}

function placeFaults(document: TextDocument, file: PositionFile, t: Template): readonly Fault[] {
  const refs = t.places.map((p) => p.ref)
  const strange = Object.keys(file.parts).filter((ref) => !refs.includes(ref))
  const faults: Fault[] = strange.map((ref) =>
    documentFault(document, ['parts', ref], 'is no place of this stage', didYouMean(ref, refs)),
  )
  if (file.place !== undefined && !refs.includes(file.place))
    faults.push(documentFault(document, ['place'], 'is no place of this stage', didYouMean(file.place, refs)))
  const { fromC, toC } = demandsOf(file, 1)
  if (fromC >= toC)
    faults.push({
      code: 'usage',
      problem: `The coldest air, ${fromC} °C, is not below the hottest, ${toC} °C`,
      mend: 'Swap from and to.',
    })
  return faults
}

function didYouMean(name: string, all: readonly string[]): string {
  const near = nearNames(name, all)
  return near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `It has ${all.join(', ')}.`
}

function partOf(n: GivenNumbers, position: Position, place: TemplatePlace): PartNumbers {
  const ratings: StageRatings = {
    ...(n.voltageMax === undefined ? {} : { voltageV: n.voltageMax }),
    ...(n.currentMax === undefined ? {} : { currentA: n.currentMax }),
    ...(n.thermalResistance === undefined ? {} : { rthKPerW: n.thermalResistance }),
    ...(n.junctionMax === undefined ? {} : { junctionMaxC: n.junctionMax }),
  }
  const shared = {
    name: n.name,
    material: n.material,
    ratings,
    leakageA: n.leakage,
    leakageAtV: n.leakageAt,
    atA: n.at,
  }
  if (n.forward !== undefined) return { ...shared, kind: 'diode', forwardV: n.forward, notes: [] }
  return {
    ...shared,
    kind: 'bipolar',
    polarity: n.polarity ?? polarityAt(position, place),
    gain: n.gain!,
    atV: n.vce,
    surface: usualSurface[n.material],
    vbeV: n.vbe ?? atCurrent(exactly(usualNumbers[n.material].vbeAt1mA), 1e-3, n.at),
    notes: n.vbe === undefined ? ['No V_BE is given: that of its material is taken (from memory).'] : [],
  }
}
