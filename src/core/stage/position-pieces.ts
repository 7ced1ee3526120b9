import type { Fault } from '#core/fault'
import { documentFault, nearNames, type Path, type TextDocument } from '#core/text'
import { exactly, type PartNumbers, type StageRatings, usualNumbers, usualSurface } from './part-numbers.ts'
import type { GivenNumbers } from './part-schema.ts'
import { type Demands, demandDefaults, type Position } from './position.ts'
import type { NetlistFile, PositionFile } from './position-schema.ts'
import { polarityAt } from './stage-circuit.ts'
import type { Template, TemplatePlace } from './template.ts'
import { atCurrent } from './transistor-device.ts'

/** What a position wants in a place: a published type, or a part in numbers. */
export type WantedPart = { readonly type: string } | { readonly numbers: PartNumbers }

/** A position with what stands in its places. */
export interface PositionRead {
  readonly position: Position
  readonly wanted: Readonly<Record<string, WantedPart>>
}

/** A file of either form, its circuit known as a stage. */
export interface KnownStage {
  readonly file: PositionFile | NetlistFile
  readonly template: Template
  readonly polarity: 'NPN' | 'PNP'
  readonly supplyV: number
  /** Resistors as they are, ohm. */
  readonly ohm: Readonly<Record<string, number>>
  readonly place: string
}

/** The position of a file whose circuit is known. */
export function positionFrom({ file, template, polarity, supplyV, ohm, place }: KnownStage): Position {
  const { tolerance = demandDefaults.tolerance, heatSink, supply } = file
  const own = (ref: string): number | undefined => {
    const given = file.values[ref]
    return given?.u === undefined ? undefined : given.u / given.value
  }
  return {
    title: file.title ?? template.says,
    template: file.rebias === undefined ? template : { ...template, settles: file.rebias },
    polarity,
    supplyV,
    supplyTolerance: supply?.u === undefined ? demandDefaults.supplyTolerance : supply.u / supply.value,
    supplyOhm: file.supplyResistance,
    ohm,
    tolerance: Object.fromEntries(Object.keys(ohm).map((ref) => [ref, own(ref) ?? tolerance])),
    betaK: file.beta,
    place,
    demands: demandsOf(file, supplyV),
    coupling: file.coupling,
    ...(heatSink === undefined ? {} : { heatSinkKPerW: heatSink }),
  }
}

const demandsOf = (file: PositionFile | NetlistFile, supplyV: number): Demands => ({
  fromC: file.from ?? demandDefaults.fromC,
  toC: file.to ?? demandDefaults.toC,
  sag: file.sag ?? demandDefaults.sag,
  ageing: file.ageing ?? demandDefaults.ageing,
  swingV: file.swing ?? demandDefaults.swingShare * supplyV,
  drift: file.drift ?? demandDefaults.drift,
  ...wantOf(file),
})

function wantOf({ want: { ic, vce } }: PositionFile | NetlistFile): Pick<Demands, 'want'> {
  if (ic === undefined && vce === undefined) return {}
  return { want: { ...(ic === undefined ? {} : { ic }), ...(vce === undefined ? {} : { vce }) } }
}

/** What stands in the places, as the file says. */
export const wantedOf = (file: PositionFile | NetlistFile, position: Position): PositionRead['wanted'] =>
  Object.fromEntries(
    position.template.places.flatMap((place) => {
      const given = file.parts[place.ref]
      if (given === undefined) return []
      return [[place.ref, typeof given === 'string' ? { type: given } : { numbers: partOf(given, position, place) }]]
    }),
  )

/** Faults of what both forms have: names of places and resistors, temperatures, windows. */
export function sharedFaults(document: TextDocument, file: PositionFile | NetlistFile, t: Template): readonly Fault[] {
  const places = t.places.map((p) => p.ref)
  const thermistors = t.thermistors.map((r) => r.ref)
  const resistors = t.resistors.map((r) => r.ref)
  return [
    ...Object.keys(file.parts).flatMap((ref) => notOf(document, ['parts', ref], ref, 'place', places)),
    ...(file.place === undefined ? [] : notOf(document, ['place'], file.place, 'place', places)),
    ...Object.keys(file.coupling).flatMap((ref) =>
      notOf(document, ['coupling', ref], ref, 'place or thermistor', [...places, ...thermistors]),
    ),
    ...(file.rebias ?? []).flatMap((ref) => notOf(document, ['rebias'], ref, 'resistor', resistors)),
    ...reBiasFaults(document, file),
    ...demandFaults(document, file),
  ]
}

/** More resistors than these would be searched for hours. */
const mostReBias = 3

function reBiasFaults(document: TextDocument, { rebias = [] }: PositionFile | NetlistFile): readonly Fault[] {
  if (rebias.length <= mostReBias) return []
  return [
    documentFault(
      document,
      ['rebias'],
      `names more than ${mostReBias} resistors`,
      'Leave out those that matter least.',
    ),
  ]
}

function demandFaults(document: TextDocument, file: PositionFile | NetlistFile): readonly Fault[] {
  const { fromC, toC } = demandsOf(file, 1)
  const order: readonly Fault[] =
    fromC < toC
      ? []
      : [
          {
            code: 'usage',
            problem: `The coldest air, ${fromC} °C, is not below the hottest, ${toC} °C`,
            mend: 'Swap from and to.',
          },
        ]
  const windows = (['ic', 'vce'] as const).flatMap((key) => {
    const want = file.want[key]
    if (want === undefined || want.low < want.high) return []
    return [documentFault(document, ['want', key], 'has no width', 'Say how far it may be off: 1.2 mA +- 0.3 mA.')]
  })
  return [...order, ...windows]
}

/** A fault where a name is none of those there are. */
export function notOf(
  document: TextDocument,
  path: Path,
  name: string,
  what: string,
  all: readonly string[],
): readonly Fault[] {
  if (all.includes(name)) return []
  const fault = documentFault(document, path, `is no ${what} of this stage`, didYouMean(name, all, what))
  return [fault.code === 'bad-input' ? { ...fault, value: name } : fault]
}

function didYouMean(name: string, all: readonly string[], what: string): string {
  const near = nearNames(name, all)
  if (near.length > 0) return `Did you mean ${near.join(' or ')}?`
  return all.length > 0 ? `It has ${all.join(', ')}.` : `It has no ${what}.`
}

function partOf(n: GivenNumbers, position: Position, place: TemplatePlace): PartNumbers {
  const ratings: StageRatings = {
    ...(n.voltageMax === undefined ? {} : { voltageV: n.voltageMax }),
    ...(n.currentMax === undefined ? {} : { currentA: n.currentMax }),
    ...(n.thermalResistance === undefined ? {} : { rthKPerW: n.thermalResistance }),
    ...(n.caseResistance === undefined ? {} : { rthCaseKPerW: n.caseResistance }),
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
