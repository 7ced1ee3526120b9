import type { Device } from '#core/circuit'

// Models of invented parts: plausible to a restorer and made up, no maker's figures.

/** A germanium PNP transistor: gain, leakage of the collector junction and knee of the gain in A. */
export const inventedGermanium = (bf: number, isc: number, ikf: number): Device => ({
  kind: 'bipolar',
  polarity: 'pnp',
  card: {
    is: 1.8e-6,
    nf: 1.01,
    bf,
    vaf: 45,
    ikf,
    ise: 8e-8,
    ne: 1.7,
    br: 14,
    isc,
    nc: 1.35,
    rb: 110,
    re: 0.6,
    eg: 0.68,
  },
})

/** A silicon NPN transistor: gain, and saturation current in A. */
export const inventedSilicon = (bf: number, is: number): Device => ({
  kind: 'bipolar',
  polarity: 'npn',
  card: { is, bf, vaf: 80, ikf: 0.08, ise: 9e-14, ne: 1.8, isc: 2e-13, nc: 1.7, rb: 130, xtb: 1.4 },
})

/** A germanium point-contact diode: series resistance, and leakage beside the contact, ohm. */
export const inventedPointContact = (rs: number, parallelOhm: number): Device => ({
  kind: 'diode',
  card: { is: 1e-6, n: 1.3, rs, eg: 0.67 },
  parallelOhm,
})
