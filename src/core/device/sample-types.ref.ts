import type { PartType } from './part-type.ts'

const base = {
  ratings: { power: [] },
  limits: [],
  provenance: { kind: 'own', where: [] },
} as const satisfies Partial<PartType>

/** Invented numbers in the form of real ones, for tests of lookup. */
export const sampleTypes: readonly PartType[] = [
  { ...base, type: '2N9011', family: 'bjt', polarity: 'NPN', material: 'Si' },
  { ...base, type: '2N9011A', family: 'bjt', polarity: 'NPN', material: 'Si' },
  {
    ...base,
    type: '2SB954',
    family: 'bjt',
    polarity: 'PNP',
    material: 'Ge',
    outline: 'TO-1 style can',
    use: 'audio driver',
  },
  {
    ...base,
    type: '2SC9815',
    family: 'bjt',
    polarity: 'NPN',
    material: 'Si',
    gainRanks: {
      symbol: 'h_FE',
      at: { I_C: 0.002, V_CE: 6 },
      ranks: [
        { suffix: 'Y', min: 120, max: 240 },
        { suffix: 'GR', min: 200, max: 400 },
      ],
    },
    limits: [
      { symbol: 'h_FE', min: 70, max: 700, unit: '1', at: { I_C: 0.002, V_CE: 6 } },
      { symbol: 'h_FE', min: 25, unit: '1', at: { I_C: 0.15, V_CE: 6 } },
    ],
  },
  {
    ...base,
    type: 'BD939',
    family: 'bjt',
    polarity: 'NPN',
    material: 'Si',
    outline: 'TO-126',
    ratings: { V_CEO: 80, I_C: 1.5, power: [{ powerW: 12.5, of: 'case', atC: 25 }] },
    gainRanks: { symbol: 'h_FE', at: { I_C: 0.15, V_CE: 2 }, ranks: [{ suffix: '-10', min: 63, max: 160 }] },
  },
  {
    ...base,
    type: 'BC982',
    family: 'bjt',
    polarity: 'NPN',
    material: 'Si',
    outline: 'TO-92',
    leads: { order: 'C-B-E', view: 'flat side facing you', variants: 'BC982L: E-C-B' },
    ratings: { V_CEO: 50, I_C: 0.1, power: [] },
    limits: [{ symbol: 'h_FE', min: 125, max: 500, unit: '1', at: { I_C: 0.002, V_CE: 5 } }],
  },
  { ...base, type: 'OC971', family: 'bjt', polarity: 'PNP', material: 'Ge', outline: 'TO-39 (TO-5)' },
  { ...base, type: 'MP939', family: 'bjt', polarity: 'PNP', material: 'Ge' },
  { ...base, type: 'BZX79-C95V1', family: 'zener', material: 'Si' },
]
