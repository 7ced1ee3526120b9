/**
 * Textbook check values of the temperature laws. Equations from the sources named, evaluated with exact k and q; the
 * equations are from memory except where a source is marked read.
 */
export const lawChecks = {
  /** ngspice 39 manual, eq. 7.10 (read): from 27 to 60 degC. */
  saturationRatio: {
    Si: { gap: 1.11, power: 3, ratio: 95.95508067245203 },
    Ge: { gap: 0.67, power: 3, ratio: 17.793254496862907 },
  },
  /** ngspice 39 manual, eq. 1.2 (read): X_TB 1.5, from 27 to 60 degC. */
  gainPowerLaw: 1.1693706919366798,
  /** Millman and Halkias, Integrated Electronics (1972), 3-5, at 300 K: slope 1/K, doubling K. */
  leakageSlope: [
    { what: 'Ge', power: 2, emission: 1, gap: 0.785, slope: 0.10788385250463127, doubling: 6.424939084653004 },
    { what: 'Si', power: 1.5, emission: 2, gap: 1.21, slope: 0.08300814959486444, doubling: 8.350350946780159 },
    { what: 'Si, diffusion', power: 3, emission: 1, gap: 1.21, doubling: 4.175175473390079 },
  ],
  /** Sze, Physics of Semiconductor Devices, V/K at 300.15 K. */
  baseVoltageSlope: [
    { what: 'Si', voltage: 0.65, gap: 1.11, power: 3, slope: -0.0017910870476727848 },
    { what: 'Si, wider gap', voltage: 0.65, gap: 1.205, power: 3, slope: -0.0021075954601332213 },
    { what: 'Ge', voltage: 0.2, gap: 0.67, power: 3, slope: -0.0018244037226686203 },
  ],
  /** Limits on makers' datasheets (read in transcribed copies): leakage A at degC, and the doubling interval, K. */
  publishedPairs: [
    { type: '2N404', from: 25, to: 80, low: 5e-6, high: 90e-6, doubling: 13.18968566124723 },
    { type: 'BC107', from: 25, to: 125, low: 15e-9, high: 4e-6, doubling: 12.40865109510384 },
  ],
} as const

/**
 * Textbook tables of parameters against temperature (from memory): leakage, gain, V_BE. Boylestad and Nashelsky,
 * Electronic Devices and Circuit Theory, table 4.1; Millman and Halkias, Integrated Electronics, tables 9-1 and 9-2.
 */
export const textbookTables = [
  {
    material: 'Si',
    rows: [
      { atC: 25, leakage: 0.1e-9, gain: 50, baseVoltage: 0.65 },
      { atC: 100, leakage: 20e-9, gain: 80, baseVoltage: 0.48 },
    ],
  },
  {
    material: 'Si',
    rows: [
      { atC: 25, leakage: 1e-9, gain: 55, baseVoltage: 0.6 },
      { atC: 175, leakage: 33e-6, gain: 100, baseVoltage: 0.225 },
    ],
  },
  {
    material: 'Ge',
    rows: [
      { atC: 25, leakage: 1e-6, gain: 55, baseVoltage: 0.2 },
      { atC: 75, leakage: 32e-6, gain: 90, baseVoltage: 0.1 },
    ],
  },
] as const

/**
 * Leakages of invented germanium transistors at 4.5 V and 0, 25 and 50 degC, A; solved with ngspice 39.3 on invented
 * Gummel-Poon cards with resistive surface paths. `bad` is a contaminated specimen, almost all of it surface.
 */
export const inventedLeakages: readonly (readonly [
  card: string,
  symbol: string,
  at0: number,
  at25: number,
  at50: number,
])[] = [
  ['ge-npn-af1', 'I_CBO', 1.54420364e-6, 4.77717677e-6, 2.03664695e-5],
  ['ge-npn-af1', 'I_CEO', 4.39354499e-5, 0.000195228064, 0.00107829831],
  ['ge-npn-af1', 'I_CES', 1.71836369e-6, 7.51927701e-6, 4.96176481e-5],
  ['ge-npn-af1', 'I_EBO', 1.904615e-7, 1.74424385e-6, 1.13276512e-5],
  ['ge-npn-md1', 'I_CBO', 4.72024067e-6, 1.04601365e-5, 3.93877296e-5],
  ['ge-npn-md1', 'I_CEO', 0.000239686215, 0.000697761224, 0.00345704705],
  ['ge-npn-md1', 'I_CES', 5.22678546e-6, 1.81220259e-5, 0.000117406695],
  ['ge-npn-md1', 'I_EBO', 4.28569073e-7, 3.82695266e-6, 2.42156434e-5],
  ['ge-pnp-af1', 'I_CBO', 1.06380661e-6, 3.48052195e-6, 1.57333531e-5],
  ['ge-pnp-af1', 'I_CEO', 4.14758568e-5, 0.000189341764, 0.0010856916],
  ['ge-pnp-af1', 'I_CES', 1.18466775e-6, 5.39340538e-6, 3.5941811e-5],
  ['ge-pnp-af1', 'I_EBO', 1.21709233e-7, 1.22251596e-6, 8.44306755e-6],
  ['ge-pnp-bad', 'I_CBO', 6.29679796e-6, 1.01780789e-5, 2.72748612e-5],
  ['ge-pnp-bad', 'I_CEO', 0.000261902807, 0.000401717859, 0.0011115863],
  ['ge-pnp-bad', 'I_CES', 0.00014275402, 0.00014880604, 0.000189051075],
  ['ge-pnp-bad', 'I_EBO', 6.05711376e-6, 9.80156696e-6, 2.62867635e-5],
  ['ge-pnp-md1', 'I_CBO', 3.74264436e-6, 8.70513891e-6, 3.61853758e-5],
  ['ge-pnp-md1', 'I_CEO', 0.000228980264, 0.000688232493, 0.00370202381],
  ['ge-pnp-md1', 'I_CES', 4.38111599e-6, 1.8496105e-5, 0.000137395979],
  ['ge-pnp-md1', 'I_EBO', 4.03584893e-7, 3.72938457e-6, 2.46538229e-5],
  ['ge-pnp-pw1', 'I_CBO', 3.20780245e-5, 0.000108252794, 0.000520863591],
  ['ge-pnp-pw1', 'I_CEO', 0.0010550211, 0.00447226866, 0.0257847918],
  ['ge-pnp-pw1', 'I_CES', 3.62897351e-5, 0.00017168234, 0.00121216275],
  ['ge-pnp-pw1', 'I_EBO', 3.90086446e-6, 4.04167714e-5, 0.000286715596],
  ['ge-pnp-rf1', 'I_CBO', 3.68707347e-8, 3.54143523e-7, 2.47675257e-6],
  ['ge-pnp-rf1', 'I_CEO', 1.20695397e-6, 2.32697719e-5, 0.000230546045],
  ['ge-pnp-rf1', 'I_CES', 4.40564494e-8, 4.75819896e-7, 3.78993335e-6],
  ['ge-pnp-rf1', 'I_EBO', 9.85537954e-9, 1.23559261e-7, 1.07204369e-6],
]
