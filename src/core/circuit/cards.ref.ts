/**
 * Cards of invented devices at points that use every DC parameter. Values in cards.ref.json: ngspice 39.3, made once by
 * `simulated(cardNetlist(c, t), cardVectors(c))` for each case at each temperature; cards.test.ts does it again where
 * ngspice is installed.
 */

/** What a card of a device is tried at: the device with its own sources at every point, at several temperatures. */
export interface CardCase {
  readonly id: string
  /** The card, named X. */
  readonly card: string
  /** Lead voltages of each point, in the order of the element's nodes; a base current is written `i1e-6`. */
  readonly points: readonly (readonly (number | string)[])[]
  /** Further words of the element, W and L. */
  readonly size?: string
}

export const cardTemperatures = [-10, 27, 75] as const

const across = (
  one: readonly number[],
  other: readonly number[],
  to: (a: number, b: number) => readonly number[],
): readonly (readonly number[])[] => one.flatMap((a) => other.map((b) => to(a, b)))

/** Collector, base, emitter. */
const gummel = across([0.3, 0.55, 0.65, 0.75, 0.85], [0.1, 0.5, 5], (vbe, vce) => [vce, vbe, 0])
const inverted = across([0.45, 0.6, 0.7, 0.8], [0.2, 3], (vbc, vec) => [0, vbc, vec])
const negative = (points: readonly (readonly number[])[]): readonly (readonly number[])[] =>
  points.map((p) => p.map((v) => 0 - v))
const forced = [1e-7, 1e-5, 1e-3].map((ib) => [2, `i${ib}`, 0])
/** Anode, cathode. */
const forward = [0.05, 0.2, 0.4, 0.55, 0.7, 0.85, 1].map((v) => [v, 0])
const reverse = [-0.01, -0.05, -0.09, -0.2, -1, -4].map((v) => [v, 0])
const broken = [-4.2, -4.7, -4.95, -5, -5.1, -5.4].map((v) => [v, 0])
/** Drain, gate, source. */
const jfet = across([-3, -1.5, -0.3, 0, 0.55], [-0.4, 0.3, 1.2, 8], (vgs, vds) => [vds, vgs, 0])
/** Drain, gate, source, body. */
const mosfet = across([0.5, 1.2, 2, 5], [0.05, 0.8, 4, 10], (vgs, vds) => [vds, vgs, 0, 0])
const bodies = across([-5, -1, 0.2, 0.5], [-0.2, 0.3, 3], (vbs, vds) => [vds, 2.5, 0, vbs])

const base = 'IS=1e-14 BF=150 RB=200 RE=0.4 RC=3'

export const cardCases: readonly CardCase[] = [
  { id: 'IRB with RBM', card: `NPN(${base} RBM=15 IRB=1e-4 IKF=0.03 VAF=60 VAR=9)`, points: [...gummel, ...forced] },
  { id: 'IRB with RBM 0', card: `NPN(${base} RBM=0 IRB=5e-5)`, points: gummel },
  { id: 'IRB without RBM', card: `NPN(${base} IRB=1e-4)`, points: gummel },
  { id: 'RBM by the base charge', card: `NPN(${base} RBM=15 IKF=0.02 IKR=0.01)`, points: [...gummel, ...inverted] },
  { id: 'IKF', card: 'NPN(IS=1e-14 BF=150 IKF=5e-3)', points: [...gummel, ...forced] },
  { id: 'inverted', card: 'NPN(IS=1e-14 BR=8 NR=1.1 ISC=1e-12 NC=1.9 VAR=12 IKR=4e-3)', points: inverted },
  {
    id: 'PNP with everything',
    card: `PNP(${base} RBM=15 IRB=1e-4 IKF=0.03 VAF=60 VAR=9 ISE=3e-13 NE=1.7 BR=6 ISC=2e-12 NC=1.6 NF=1.03 NR=1.05 XTB=1.4 EG=1.12 XTI=3.5 TNOM=50)`,
    points: negative([...gummel, ...inverted]),
  },
  {
    id: 'germanium',
    card: 'PNP(IS=3e-6 BF=70 ISE=2e-7 NE=1.8 BR=9 XTB=-0.8 EG=0.67 XTI=2.5 TNOM=25)',
    points: negative([...gummel, ...inverted].map((p) => p.map((v) => v / 2.5))),
  },
  { id: 'VAF and IKF of 0 are none', card: 'NPN(IS=1e-14 BF=150 VAF=0 VAR=0 IKF=0 IKR=0)', points: gummel },
  { id: 'diode knee', card: 'D(IS=1e-13 N=1.2 IKF=2e-4 RS=0.5)', points: [...forward, ...reverse] },
  { id: 'recombination', card: 'D(IS=1e-14 ISR=1e-9 NR=2 VJ=0.7 M=0.4)', points: [...forward, ...reverse] },
  { id: 'recombination, defaults', card: 'D(IS=1e-14 ISR=1e-11)', points: [...forward, ...reverse] },
  {
    id: 'recombination and knee',
    card: 'D(IS=1e-14 N=1.1 ISR=1e-9 NR=1.9 VJ=0.8 M=0.33 IKF=1e-4 RS=1 EG=1.15 XTI=2)',
    points: [...forward, ...reverse],
  },
  { id: 'breakdown', card: 'D(IS=1e-14 N=1.3 BV=5 IBV=2e-3 NBV=1.6 RS=2)', points: broken },
  { id: 'breakdown, NBV left out', card: 'D(IS=1e-12 N=1.8 BV=5)', points: broken },
  { id: 'breakdown, IBV too small', card: 'D(IS=1e-9 BV=5 IBV=1e-12)', points: broken },
  { id: 'Schottky', card: 'D(IS=3e-7 N=1.04 RS=0.3 EG=0.69 XTI=2)', points: [...forward, ...reverse] },
  { id: 'NJF', card: 'NJF(VTO=-2.2 BETA=2e-3 LAMBDA=0.02 RD=15 RS=25 IS=5e-14 TNOM=40)', points: jfet },
  { id: 'PJF', card: 'PJF(VTO=-2.2 BETA=1e-3 LAMBDA=0.01 IS=1e-14)', points: negative(jfet) },
  {
    id: 'NMOS with body effect',
    card: 'NMOS(VTO=1 KP=5e-5 GAMMA=0.6 PHI=0.7 LAMBDA=0.02 TNOM=40)',
    points: [...mosfet, ...bodies],
    size: 'W=200u L=10u',
  },
  {
    id: 'NMOS with resistances',
    card: 'NMOS(VTO=0.8 KP=2e-2 GAMMA=0.3 RD=2 RS=1 IS=1e-13)',
    points: [...mosfet, ...bodies],
  },
  {
    id: 'PMOS with body effect',
    card: 'PMOS(VTO=-1 KP=2e-3 GAMMA=0.5 PHI=0.65 LAMBDA=0.01 IS=3e-14)',
    points: negative([...mosfet, ...bodies]),
  },
  { id: 'PMOS that is on at 0 V', card: 'PMOS(VTO=0.7 KP=1e-3)', points: negative(mosfet) },
]

/** Element letter by the type word of a card. */
const letters: Readonly<Record<string, string>> = {
  D: 'D',
  NPN: 'Q',
  PNP: 'Q',
  NJF: 'J',
  PJF: 'J',
  NMOS: 'M',
  PMOS: 'M',
}

/** The netlist of a case at a temperature: sources `Vk_lead` or `Ik_lead` at each lead of each point. */
export function cardNetlist({ id, card, points, size = '' }: CardCase, temperatureC: number): string {
  const letter = letters[card.split('(')[0]!]!
  const lines = points.flatMap((point, k) => {
    const sources = point.map((v, lead) =>
      typeof v === 'string' ? `I${k}_${lead} 0 n${k}_${lead} ${v.slice(1)}` : `V${k}_${lead} n${k}_${lead} 0 ${v}`,
    )
    return [...sources, `${letter}${k} ${point.map((_, lead) => `n${k}_${lead}`).join(' ')} X ${size}`.trim()]
  })
  return [`* ${id}`, ...lines, `.model X ${card}`, `.temp ${temperatureC}`, '.options gmin=1e-15', '.end', ''].join(
    '\n',
  )
}

/** What is read of a case: the current of each voltage source, the voltage at each current source. */
export const cardVectors = ({ points }: CardCase): readonly string[] =>
  points.flatMap((point, k) =>
    point.map((v, lead) => (typeof v === 'string' ? `v(n${k}_${lead})` : `i(v${k}_${lead})`)),
  )
