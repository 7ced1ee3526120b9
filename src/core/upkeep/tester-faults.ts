import { printPlain } from '#core/quantity'
import type { Tester } from '#core/tester'
import type { TesterPart } from './tester-part.ts'
import { testerParts } from './tester-parts.ts'
import { soundState, type TesterState } from './tester-state.ts'

/** One thing that may be wrong with a tester. */
export interface TesterFault {
  /** Name in documents: `shunt 10 mA open`. */
  readonly id: string
  /** The same for people, with its size where it has one. */
  readonly say: (size: number) => string
  /** Spans of the size it may have, spread evenly by ratio; one span of one size where it has none. */
  readonly sizes: readonly (readonly [from: number, to: number])[]
  /** The tester with the fault. */
  readonly at: (size: number) => TesterState
  /** The part it is of, by its name, and the value that part then has; of faults that are of no single part nothing. */
  readonly of?: { readonly part: string; readonly value: (size: number) => number }
}

/** An open joint and a short, ohm: far from any part of a tester. */
const openOhm = 1e12
const shortOhm = 1e-9

/** How far parts drift: less is within what tolerances do, more is as good as open or short. As ratios. */
const drift = [
  [0.4, 0.95],
  [1.05, 2.5],
] as const

const once = [[1, 1]] as const

const times = (size: number): string => `${size > 1 ? '+' : ''}${Number(((size - 1) * 100).toPrecision(2))} %`

/**
 * Every single fault of a needle tester: each of its parts open, shorted or drifted, dirty contacts, weak cells, and
 * what ails a movement, leads and dial.
 */
export function testerFaults(t: Tester): readonly TesterFault[] {
  const sound = soundState(t)
  const parts = testerParts(t)
  return [
    ...parts.flatMap((p) => partFaults(t, p)),
    ...movementFaults(sound),
    ...feedFaults(sound),
    ...leadFaults(sound),
    ...leakFaults(sound),
    ...(t.gain.kind === 'dial' ? dialFaults(sound, t.gain.bridge !== undefined) : []),
    ...(t.movement?.diodes === undefined ? [] : [diodesOpen(sound)]),
  ]
}

/** What a part may have come to. */
interface PartFault extends Omit<TesterFault, 'at' | 'of'> {
  readonly value: (size: number) => number
  /** What jumps with it. */
  readonly loose?: string
}

const partFaults = (t: Tester, p: TesterPart): readonly TesterFault[] =>
  faultsOfPart(t, p).map(({ value, loose, ...fault }) => ({
    ...fault,
    of: { part: p.id, value },
    at: (size) => ({ ...soundState(t), tester: p.change(t, value(size)), ...(loose === undefined ? {} : { loose }) }),
  }))

function faultsOfPart(t: Tester, p: TesterPart): readonly PartFault[] {
  const nominal = p.nominal ?? 0
  const byNominal = (size: number): number => nominal * size
  const fixed = (word: string, value: number): PartFault => ({
    id: `${p.id} ${word}`,
    say: () => `${p.id} is ${word}`,
    sizes: once,
    value: () => value,
  })
  switch (p.kind) {
    case 'shunt':
    case 'segment':
    case 'multiplier':
    case 'series':
    case 'dial':
      return [
        fixed('open', openOhm),
        fixed('shorted', shortOhm),
        {
          id: `${p.id} drifted`,
          say: (size) => `${p.id} has drifted, about ${times(size)}`,
          sizes: drift,
          value: byNominal,
        },
      ]
    case 'contact':
      return contactFaults(t, p)
    case 'coil':
      return [
        fixed('open', openOhm),
        {
          id: 'coil drifted',
          say: (size) => `the coil, or what stands in series with it, has changed, about ${times(size)}`,
          sizes: drift,
          value: byNominal,
        },
      ]
    case 'movement':
      return [
        {
          id: 'magnet weak',
          say: (size) => `the magnet is weak or the springs stiff: ${times(size)} current for full deflection`,
          sizes: [[1.05, 2.5]],
          value: byNominal,
        },
        {
          id: 'springs weak',
          say: (size) => `the springs have lost force: ${times(size)} current for full deflection`,
          sizes: [[0.6, 0.95]],
          value: byNominal,
        },
      ]
    case 'across': {
      const coilOhm = t.movement!.coilOhm
      return [
        {
          id: 'movement shorted',
          say: () => 'a short across the movement: a protection diode, a brush, a solder bridge',
          sizes: once,
          value: () => shortOhm,
        },
        {
          id: 'movement bypassed',
          say: (size) =>
            `a leak across the movement: diodes or dirt of about ${printPlain(size * coilOhm, 'ohm', { digits: 2 })}`,
          sizes: [[0.5, 20]],
          value: (size) => size * coilOhm,
        },
      ]
    }
    case 'cell':
      return [
        {
          id: `${p.id} weak`,
          say: (size) =>
            `cells of ${p.id.replace('cell ', '')} are empty, about ${printPlain(size * nominal, 'V', { digits: 2 })} each`,
          sizes: [[0.4, 0.92]],
          value: byNominal,
        },
      ]
    case 'inside':
      return [
        {
          id: `${p.id} high`,
          say: (size) =>
            `cells or springs of ${p.id.replace('inside ', '')} have much resistance, about ${printPlain(size * nominal, 'ohm', { digits: 2 })} each`,
          sizes: [[3, 300]],
          value: byNominal,
        },
        fixed('open', openOhm),
      ]
    case 'fuse':
      return [
        { id: 'fuse blown', say: () => 'the fuse is blown', sizes: once, value: () => openOhm },
        {
          id: 'fuse high',
          say: (size) =>
            `the fuse or its clips have much resistance, about ${printPlain(size * nominal, 'ohm', { digits: 2 })}`,
          sizes: [[3, 300]],
          value: byNominal,
        },
      ]
    case 'leads':
      return []
  }
}

/** A contact in series with a shunt; those that feed a range are looked at by range. */
function contactFaults(t: Tester, p: TesterPart): readonly PartFault[] {
  const range = p.id.replace('contact ', '')
  const circuit = t.ranges.find((r) => r.id === range)!.circuit
  if (circuit.kind !== 'shunt') return []
  return [
    {
      id: `${p.id} open`,
      say: () => `the switch contact in the shunt of ${range} does not make`,
      sizes: once,
      value: () => openOhm,
    },
    {
      id: `${p.id} dirty`,
      say: (size) =>
        `the switch contact in the shunt of ${range} is dirty, about ${printPlain(size * circuit.shuntOhm, 'ohm', { digits: 2 })}`,
      sizes: [[0.03, 3]],
      value: (size) => circuit.contactOhm + size * circuit.shuntOhm,
      loose: range,
    },
  ]
}

const movementFaults = (sound: TesterState): readonly TesterFault[] => [
  {
    id: 'needle stuck',
    say: () => 'the needle is stuck, or its springs are off',
    sizes: once,
    at: () => ({ ...sound, isStuck: true }),
  },
  ...([-1, 1] as const).map(
    (sign): TesterFault => ({
      id: sign < 0 ? 'needle bent down' : 'needle bent up',
      say: (size) =>
        `the needle is bent or its zero is off, about ${sign < 0 ? '-' : '+'}${Number((size * 100).toPrecision(2))} % of full scale`,
      sizes: [sign < 0 ? [0.02, 0.05] : [0.02, 0.2]],
      at: (size) => ({ ...sound, zero: sign * size }),
    }),
  ),
]

/** Contacts that feed a range; in ranges of a shunt they cost a little current alone. */
function feedFaults(sound: TesterState): readonly TesterFault[] {
  const { tester: t } = sound
  const kinds = ['movement', 'universal', 'multiplier', 'shunt']
  return t.ranges
    .filter((r) => kinds.includes(r.circuit.kind))
    .flatMap((r): readonly TesterFault[] => [
      {
        id: `switch ${r.id} open`,
        say: () => `the switch contact that feeds ${r.id} does not make`,
        sizes: once,
        at: () => ({ ...sound, feedOhm: { [r.id]: openOhm } }),
      },
      {
        id: `switch ${r.id} dirty`,
        say: () => `the switch contact that feeds ${r.id} is dirty`,
        sizes: [[1, 300]],
        at: (size) => ({ ...sound, feedOhm: { [r.id]: size }, loose: r.id }),
      },
    ])
}

const leadFaults = (sound: TesterState): readonly TesterFault[] => [
  {
    id: 'lead broken',
    say: () => 'a lead to the part is broken',
    sizes: once,
    at: () => ({ ...sound, leadOhm: openOhm }),
  },
  {
    id: 'lead loose',
    say: () => 'a lead, plug or clip is loose or corroded',
    sizes: [[0.3, 300]],
    at: (size) => ({ ...sound, leadOhm: size, loose: 'leads' }),
  },
]

const leakFaults = (sound: TesterState): readonly TesterFault[] => [
  {
    id: 'leak from supply',
    say: (size) =>
      `a leak from the supply into the meter, by damp or dirt, about ${printPlain(size, 'ohm', { digits: 2 })}`,
    sizes: [[90e3, 3e6]],
    at: (size) => ({ ...sound, leakOhm: size }),
  },
  {
    id: 'leak into base',
    say: (size) =>
      `base current flows at zero: a leak of about ${printPlain(size, 'ohm', { digits: 2 })} across its control`,
    sizes: [[1e6, 30e6]],
    at: (size) => ({ ...sound, baseLeakOhm: size }),
  },
]

/** Diodes that no longer conduct guard nothing, and no reading shows it. */
const diodesOpen = (sound: TesterState): TesterFault => ({
  id: 'protection diodes open',
  say: () => 'the diodes across the movement are open, and guard nothing',
  sizes: once,
  at: () => sound,
})

/** @param isKnown whether its resistors are described, and are faults of their own */
const dialFaults = (sound: TesterState, isKnown: boolean): readonly TesterFault[] => [
  {
    id: isKnown ? 'dial knob turned' : 'dial resistor drifted',
    say: (size) =>
      `${isKnown ? 'the knob of the gain dial has turned on its shaft' : 'the fixed resistor of the gain dial has drifted, or its knob has turned'}: the dial shows ${times(size)}`,
    sizes: [
      [0.4, 0.88],
      [1.12, 2.5],
    ],
    at: (size) => ({ ...sound, dial: size }),
  },
  {
    id: 'dial worn',
    say: () => 'the track of the gain dial is worn or dirty',
    sizes: once,
    at: () => ({ ...sound, loose: 'dial' }),
  },
]
