import type { Transistor } from './null-circuit.ts'

/** Invented transistors, from which alone the steepness of the null comes; their gain is set to the mark. */
export const dialTransistors: Readonly<Record<'Ge' | 'Si', Transistor>> = {
  Ge: {
    kind: 'bipolar',
    polarity: 'pnp',
    card: {
      is: 2e-6,
      nf: 1.01,
      vaf: 40,
      ikf: 0.05,
      ise: 9e-8,
      ne: 1.7,
      br: 12,
      isc: 2e-6,
      nc: 1.4,
      rb: 120,
      re: 0.6,
      rc: 2.5,
      xtb: 0.6,
      xti: 3,
      eg: 0.67,
      tnom: 25,
    },
  },
  Si: {
    kind: 'bipolar',
    polarity: 'npn',
    card: {
      is: 1.5e-14,
      nf: 1,
      vaf: 80,
      ikf: 0.1,
      ise: 4e-14,
      ne: 1.75,
      br: 4,
      isc: 6e-13,
      nc: 1.8,
      rb: 100,
      re: 0.4,
      rc: 1,
      xtb: 1.5,
      xti: 3,
      eg: 1.11,
      tnom: 25,
    },
  },
}
