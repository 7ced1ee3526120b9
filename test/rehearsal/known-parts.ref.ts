import type { Device } from '#core/circuit'

/**
 * Invented parts with a known truth: cards as a restorer's drawer might hold them, no maker's figures. Leakage over the
 * surface stands beside the junctions as resistances.
 */
export const knownParts = {
  /** Germanium PNP, leaky: some microamperes from collector to base, a tenth of a milliampere with the base open. */
  germanium: {
    type: '2N1305',
    device: {
      kind: 'bipolar',
      polarity: 'pnp',
      card: {
        is: 1.8e-6,
        nf: 1.01,
        bf: 75,
        vaf: 45,
        ikf: 0.055,
        ise: 8e-8,
        ne: 1.7,
        br: 14,
        var: 18,
        ikr: 0.02,
        isc: 2.6e-6,
        nc: 1.35,
        rb: 110,
        re: 0.6,
        rc: 2.2,
        xtb: 0.7,
        eg: 0.68,
        tnom: 25,
      },
      leakOhm: { cb: 1.5e6 },
    },
  },
  /** Silicon NPN whose surface leaks, so that a needle can see it. */
  silicon: {
    type: 'BC107',
    device: {
      kind: 'bipolar',
      polarity: 'npn',
      card: {
        is: 8e-15,
        nf: 1.005,
        bf: 250,
        vaf: 80,
        ikf: 0.08,
        ise: 9e-14,
        ne: 1.8,
        br: 5,
        isc: 2e-13,
        nc: 1.7,
        rb: 130,
        re: 0.5,
        rc: 1.6,
        xtb: 1.4,
        tnom: 25,
      },
      leakOhm: { cb: 1.5e6 },
    },
  },
  /** Silicon NPN as new: its leakage is far below what these testers show. */
  'silicon as new': {
    type: 'BC107',
    device: {
      kind: 'bipolar',
      polarity: 'npn',
      card: { is: 8e-15, bf: 250, vaf: 80, ikf: 0.08, ise: 9e-14, ne: 1.8, isc: 2e-13, nc: 1.7, rb: 130, tnom: 25 },
    },
  },
  'silicon diode': { type: '1N4148', device: { kind: 'diode', card: { is: 2e-9, n: 1.8, rs: 0.6 } } },
  'germanium diode': {
    type: '1N34A',
    device: { kind: 'diode', card: { is: 2e-6, n: 1.3, rs: 12, eg: 0.67 }, parallelOhm: 2e5 },
  },
} as const satisfies Readonly<Record<string, { readonly type: string; readonly device: Device }>>

export type KnownName = keyof typeof knownParts
