import type { BarePart } from './bare-part.ts'
import type { Draw } from './draw.ts'
import {
  dampedTransistor,
  darlington,
  digitalTransistor,
  germaniumTransistor,
  siliconTransistor,
  thinGermanium,
  thyristor,
} from './draw-bipolar.ts'
import {
  diodesInSeries,
  dualDiode,
  dualSchottky,
  germaniumDiode,
  lightDiode,
  plainResistor,
  schottkyDiode,
  seleniumStack,
  siliconDiode,
  tappedResistor,
  zenerDiode,
} from './draw-diode.ts'
import { depletionFet, enhancementFet, junctionFet, triac, unijunction } from './draw-field-effect.ts'
import type { PartFault } from './fault-kind.ts'

/** Words for a part in one polarity. */
export interface Named {
  readonly family: string
  readonly polarity?: string
  /** Odds of meeting it, before any reading. */
  readonly odds: number
  /** New names of electrodes that trade places when the polarity turns: the ends of a thyristor. */
  readonly names?: Readonly<Record<string, string>>
}

/** A kind of part that may lie in the drawer. */
export interface PartKind {
  readonly id: string
  readonly technology?: string
  readonly electrodes: readonly string[]
  readonly mode?: string
  readonly extras?: readonly string[]
  /** As it is simulated, and with every voltage turned round. */
  readonly as: Named
  readonly turned?: Named
  /** Electrodes that no reading between two leads can tell apart. */
  readonly alike?: readonly (readonly [string, string])[]
  /** Share of this kind that is bad. */
  readonly badShare?: number
  readonly faults?: readonly PartFault[]
  /** What the supply of 12 V that looks for breakdown does to it; left out, nothing. */
  readonly at12V?: 'harmed' | 'worn'
  readonly make: (d: Draw) => BarePart
}

const bipolarFaults: readonly PartFault[] = [
  { kind: 'short', between: ['C', 'E'], share: 4 },
  { kind: 'short', between: ['C', 'B'], share: 1.5 },
  { kind: 'short', between: ['B', 'E'], share: 1.5 },
  { kind: 'open', between: ['E'], share: 2 },
  { kind: 'open', between: ['C'], share: 1 },
  { kind: 'leaky', between: ['C', 'E'], share: 1.5 },
  { kind: 'leaky', between: ['C', 'B'], share: 0.5 },
]
/** A junction driven into breakdown for long, which nobody sees until the gain at small currents is measured. */
const worn: PartFault = { kind: 'worn', between: ['B', 'E'], share: 0.3, say: 'worn emitter junction' }
const fetFaults: readonly PartFault[] = [
  { kind: 'short', between: ['D', 'S'], share: 2 },
  { kind: 'short', between: ['G', 'S'], share: 1, say: 'gate-source short' },
  { kind: 'short', between: ['D', 'G'], share: 0.7, say: 'gate-drain short' },
]
/** What tells germanium that was diffused for high frequencies. */
export const thinEmitter = 'thin emitter junction'

/** Junctions that are gone: nothing conducts, or everything does. */
const bipolar = { electrodes: ['B', 'C', 'E'], badShare: 0.15, faults: bipolarFaults } as const
const silicon = 'silicon'

/**
 * The kinds of parts that are weighed, with the odds of meeting each in a restorer's drawer and of its being bad. Odds
 * are common practice, from memory: they matter where readings leave a choice, and the answer says so.
 */
export const partKinds: readonly PartKind[] = [
  {
    id: 'si',
    at12V: 'worn',
    technology: silicon,
    ...bipolar,
    faults: [...bipolarFaults, worn],
    as: { family: 'BJT', polarity: 'NPN', odds: 24 },
    turned: { family: 'BJT', polarity: 'PNP', odds: 14 },
    make: siliconTransistor,
  },
  {
    id: 'ge',
    at12V: 'harmed',
    technology: 'germanium',
    ...bipolar,
    as: { family: 'BJT', polarity: 'NPN', odds: 4 },
    turned: { family: 'BJT', polarity: 'PNP', odds: 16 },
    make: germaniumTransistor,
  },
  {
    id: 'ge-thin',
    at12V: 'harmed',
    technology: 'germanium',
    ...bipolar,
    faults: bipolarFaults.slice(0, 1),
    extras: [thinEmitter],
    as: { family: 'BJT', polarity: 'NPN', odds: 0.1 },
    turned: { family: 'BJT', polarity: 'PNP', odds: 1.4 },
    make: thinGermanium,
  },
  {
    id: 'darlington',
    at12V: 'worn',
    technology: silicon,
    ...bipolar,
    faults: bipolarFaults.slice(0, 1),
    as: { family: 'Darlington', polarity: 'NPN', odds: 3 },
    turned: { family: 'Darlington', polarity: 'PNP', odds: 1.5 },
    make: darlington,
  },
  {
    id: 'damped',
    at12V: 'worn',
    technology: silicon,
    ...bipolar,
    faults: bipolarFaults.slice(0, 1),
    extras: ['damper diode C-E', 'internal base-emitter resistor'],
    as: { family: 'BJT', polarity: 'NPN', odds: 1.5 },
    make: dampedTransistor,
  },
  {
    id: 'digital',
    at12V: 'worn',
    technology: silicon,
    ...bipolar,
    faults: [],
    badShare: 0,
    extras: ['internal base resistors'],
    as: { family: 'digital transistor', polarity: 'NPN', odds: 1.2 },
    turned: { family: 'digital transistor', polarity: 'PNP', odds: 0.8 },
    make: digitalTransistor,
  },
  {
    id: 'jfet',
    technology: silicon,
    electrodes: ['D', 'G', 'S'],
    alike: [['D', 'S']],
    badShare: 0.08,
    faults: [{ kind: 'short', between: ['G', 'S'], share: 1, say: 'gate short' }],
    as: { family: 'JFET', polarity: 'N', odds: 4 },
    turned: { family: 'JFET', polarity: 'P', odds: 1.5 },
    make: junctionFet,
  },
  {
    id: 'mosfet',
    at12V: 'harmed',
    technology: silicon,
    mode: 'enhancement',
    extras: ['body diode'],
    electrodes: ['D', 'G', 'S'],
    badShare: 0.15,
    faults: fetFaults,
    as: { family: 'MOSFET', polarity: 'N', odds: 7 },
    turned: { family: 'MOSFET', polarity: 'P', odds: 2 },
    make: enhancementFet,
  },
  {
    id: 'depletion',
    at12V: 'harmed',
    technology: silicon,
    mode: 'depletion',
    electrodes: ['D', 'G', 'S'],
    badShare: 0.15,
    faults: fetFaults.slice(1, 2),
    as: { family: 'MOSFET', polarity: 'N', odds: 0.8 },
    turned: { family: 'MOSFET', polarity: 'P', odds: 0.1 },
    make: depletionFet,
  },
  {
    id: 'thyristor',
    technology: silicon,
    electrodes: ['A', 'G', 'K'],
    badShare: 0.08,
    faults: [{ kind: 'short', between: ['A', 'K'], share: 1 }],
    as: { family: 'SCR', polarity: 'P-gate', odds: 2 },
    turned: { family: 'PUT', polarity: 'N-gate', odds: 0.4, names: { A: 'K', K: 'A' } },
    make: thyristor,
  },
  {
    id: 'triac',
    technology: silicon,
    electrodes: ['MT1', 'G', 'MT2'],
    alike: [['MT1', 'G']],
    badShare: 0.08,
    faults: [{ kind: 'short', between: ['MT1', 'MT2'], share: 1 }],
    as: { family: 'triac', odds: 1 },
    make: triac,
  },
  {
    id: 'unijunction',
    technology: silicon,
    electrodes: ['E', 'B1', 'B2'],
    as: { family: 'UJT', polarity: 'N', odds: 0.5 },
    make: unijunction,
  },
  {
    id: 'dual',
    technology: silicon,
    electrodes: ['A1', 'K', 'A2'],
    alike: [['A1', 'A2']],
    as: { family: 'dual diode', polarity: 'common cathode', odds: 1 },
    turned: { family: 'dual diode', polarity: 'common anode', odds: 0.6, names: { A1: 'K1', A2: 'K2', K: 'A' } },
    make: dualDiode,
  },
  {
    id: 'dual-schottky',
    technology: 'Schottky',
    electrodes: ['A1', 'K', 'A2'],
    alike: [['A1', 'A2']],
    as: { family: 'dual diode', polarity: 'common cathode', odds: 1.2 },
    turned: { family: 'dual diode', polarity: 'common anode', odds: 0.2, names: { A1: 'K1', A2: 'K2', K: 'A' } },
    make: dualSchottky,
  },
  {
    id: 'series',
    technology: silicon,
    electrodes: ['A', 'M', 'K'],
    as: { family: 'dual diode', polarity: 'in series', odds: 0.5 },
    make: diodesInSeries,
  },
  {
    id: 'single',
    technology: silicon,
    electrodes: ['A', 'K', 'nc'],
    as: { family: 'diode', odds: 0.8 },
    make: siliconDiode,
  },
  {
    id: 'tapped',
    electrodes: ['end', 'tap', 'other'],
    alike: [['end', 'other']],
    as: { family: 'resistor', polarity: 'with tap', odds: 0.5 },
    make: tappedResistor,
  },
  {
    id: 'dead',
    electrodes: ['1', '2', '3'],
    alike: [
      ['1', '2'],
      ['2', '3'],
    ],
    as: { family: 'any', odds: 0 },
    badShare: 1,
    faults: [
      { kind: 'open', between: ['1', '2', '3'], share: 1, say: 'open throughout' },
      { kind: 'short', between: ['1', '2', '3'], share: 1.5, say: 'shorted throughout' },
    ],
    make: () => ({ components: [], devices: {} }),
  },
  ...twoLeads(),
]

/** Parts of two leads. */
function twoLeads(): readonly PartKind[] {
  const leads = { electrodes: ['A', 'K'] } as const
  const leaky: readonly PartFault[] = [{ kind: 'leaky', between: ['A', 'K'], share: 1 }]
  const diode = (id: string, technology: string, family: string, odds: number, make: PartKind['make']): PartKind => ({
    id,
    technology,
    ...leads,
    as: { family, odds },
    make,
  })
  return [
    { ...diode('d-si', silicon, 'diode', 40, siliconDiode), badShare: 0.04, faults: leaky },
    diode('d-ge', 'germanium', 'diode', 16, germaniumDiode),
    diode('d-schottky', 'Schottky', 'diode', 6, schottkyDiode),
    diode('d-zener', silicon, 'Zener diode', 14, zenerDiode),
    diode('d-light', 'III-V', 'LED', 5, lightDiode),
    diode('d-selenium', 'selenium', 'rectifier stack', 0.5, seleniumStack),
    {
      id: 'resistor',
      electrodes: ['1', '2'],
      alike: [['1', '2']],
      as: { family: 'resistor', odds: 1 },
      make: plainResistor,
    },
    {
      id: 'd-dead',
      ...leads,
      alike: [['A', 'K']],
      as: { family: 'any', odds: 0 },
      badShare: 1,
      faults: [
        { kind: 'open', between: ['A', 'K'], share: 1, say: 'open' },
        { kind: 'short', between: ['A', 'K'], share: 1.5, say: 'short' },
      ],
      make: () => ({ components: [], devices: {} }),
    },
  ]
}
