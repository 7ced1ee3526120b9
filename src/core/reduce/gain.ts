import { formula } from '#core/quantity'

/** Collector current above leakage in a gain test, A; and base current. */
const collector = [1e-4, 1e-2] as const
const base = [1e-6, 1e-4] as const
const leakage = [1e-7, 9e-5] as const

const handbook = {
  title: 'Millman and Halkias, Integrated Electronics (1972)',
  where: 'ch. 5',
  standing: 'from memory',
} as const

/** DC current gain, leakage and all. */
export const gainRatio = formula({
  id: 'reduce/gain-ratio',
  version: 1,
  text: 'h_FE = I_C / I_B',
  unit: '1',
  inputs: { collector: 'A', base: 'A' },
  symbols: { collector: 'I_C', base: 'I_B' },
  source: { title: 'IEC 60747-7, bipolar transistors', where: 'definition of h_FE', standing: 'from memory' },
  evaluate: ({ collector, base }) => collector / base,
  partials: ({ collector, base }) => ({ collector: 1 / base, base: -collector / base ** 2 }),
  domain: { collector, base },
})

/** Gain with the open-base leakage taken out of the collector current. */
export const gainLessLeakage = formula({
  id: 'reduce/gain-less-leakage',
  version: 1,
  text: 'h_FE0 = (I_C - I_CEO) / I_B',
  unit: '1',
  inputs: { collector: 'A', leakage: 'A', base: 'A' },
  symbols: { collector: 'I_C', leakage: 'I_CEO', base: 'I_B' },
  source: { title: 'leakage with the base open is no work of the base current', standing: 'common practice' },
  evaluate: ({ collector, leakage, base }) => (collector - leakage) / base,
  partials: ({ collector, leakage, base }) => ({
    collector: 1 / base,
    leakage: -1 / base,
    base: -(collector - leakage) / base ** 2,
  }),
  domain: { collector, leakage, base },
})

/** A dialled gain with the open-base leakage taken out. */
export const dialledLessLeakage = formula({
  id: 'reduce/dialled-less-leakage',
  version: 1,
  text: 'h_FE0 = h_FE (1 - I_CEO / I_C)',
  unit: '1',
  inputs: { gain: '1', leakage: 'A', collector: 'A' },
  symbols: { gain: 'h_FE', leakage: 'I_CEO', collector: 'I_C' },
  source: { title: 'reduce/gain-less-leakage with I_B = I_C / h_FE', standing: 'common practice' },
  evaluate: ({ gain, leakage, collector }) => gain * (1 - leakage / collector),
  partials: ({ gain, leakage, collector }) => ({
    gain: 1 - leakage / collector,
    leakage: -gain / collector,
    collector: (gain * leakage) / collector ** 2,
  }),
  domain: { gain: [5, 500], leakage, collector },
})

/** Gain from the definition of I_CBO: I_C = h I_B + (1 + h) I_CBO. */
export const gainLessCutoff = formula({
  id: 'reduce/gain-less-cutoff',
  version: 1,
  text: 'h_FE0 = (I_C - I_CBO) / (I_B + I_CBO)',
  unit: '1',
  inputs: { collector: 'A', base: 'A', cutoff: 'A' },
  symbols: { collector: 'I_C', base: 'I_B', cutoff: 'I_CBO' },
  source: handbook,
  evaluate: ({ collector, base, cutoff }) => (collector - cutoff) / (base + cutoff),
  partials: ({ collector, base, cutoff }) => ({
    collector: 1 / (base + cutoff),
    base: -(collector - cutoff) / (base + cutoff) ** 2,
    cutoff: -(collector + base) / (base + cutoff) ** 2,
  }),
  domain: { collector, base, cutoff: leakage },
})

/** The same where the gain was dialled, so that I_B = I_C / h_FE. */
export const dialledLessCutoff = formula({
  id: 'reduce/dialled-less-cutoff',
  version: 1,
  text: 'h_FE0 = (I_C - I_CBO) / (I_C / h_FE + I_CBO)',
  unit: '1',
  inputs: { collector: 'A', gain: '1', cutoff: 'A' },
  symbols: { collector: 'I_C', gain: 'h_FE', cutoff: 'I_CBO' },
  source: handbook,
  evaluate: ({ collector, gain, cutoff }) => (collector - cutoff) / (collector / gain + cutoff),
  partials: ({ collector, gain, cutoff }) => {
    const base = collector / gain + cutoff
    const h = (collector - cutoff) / base
    return {
      collector: (1 - h / gain) / base,
      gain: (h * collector) / gain ** 2 / base,
      cutoff: -(1 + h) / base,
    }
  },
  domain: { collector, gain: [5, 500], cutoff: leakage },
})

/** Base current that a dialled gain stands for. */
export const baseFromGain = formula({
  id: 'reduce/base-from-gain',
  version: 1,
  text: 'I_B = I_C / h_FE',
  unit: 'A',
  inputs: { collector: 'A', gain: '1' },
  symbols: { collector: 'I_C', gain: 'h_FE' },
  source: { title: 'IEC 60747-7, bipolar transistors', where: 'definition of h_FE', standing: 'from memory' },
  evaluate: ({ collector, gain }) => collector / gain,
  partials: ({ collector, gain }) => ({ collector: 1 / gain, gain: -collector / gain ** 2 }),
  domain: { collector, gain: [5, 500] },
})

/** Gain at the tiny current of the leakage itself, from the two leakages. */
export const gainAtLeakage = formula({
  id: 'reduce/gain-at-leakage',
  version: 1,
  text: 'h_FE(I_CEO) = I_CEO / I_CBO - 1',
  unit: '1',
  inputs: { leakage: 'A', cutoff: 'A' },
  symbols: { leakage: 'I_CEO', cutoff: 'I_CBO' },
  source: handbook,
  evaluate: ({ leakage, cutoff }) => leakage / cutoff - 1,
  partials: ({ leakage, cutoff }) => ({ leakage: 1 / cutoff, cutoff: -leakage / cutoff ** 2 }),
  domain: { leakage: [1e-5, 1e-3], cutoff: [1e-7, 9e-6] },
})

/** Open-base leakage that I_CBO and a gain would give. */
export const openBaseLeakage = formula({
  id: 'reduce/open-base-leakage',
  version: 1,
  text: 'I_CEO = (1 + h_FE) I_CBO',
  unit: 'A',
  inputs: { gain: '1', cutoff: 'A' },
  symbols: { gain: 'h_FE', cutoff: 'I_CBO' },
  source: handbook,
  evaluate: ({ gain, cutoff }) => (1 + gain) * cutoff,
  partials: ({ gain, cutoff }) => ({ gain: cutoff, cutoff: 1 + gain }),
  domain: { gain: [1, 1000], cutoff: [1e-8, 1e-4] },
})

/** Gain from the share of emitter current that reaches the collector. */
export const gainFromAlpha = formula({
  id: 'reduce/gain-from-alpha',
  version: 1,
  text: 'h_FE = alpha / (1 - alpha)',
  unit: '1',
  inputs: { alpha: '1' },
  symbols: { alpha: 'alpha' },
  source: {
    title: 'Boylestad and Nashelsky, Electronic Devices and Circuit Theory',
    where: '3.5',
    standing: 'from memory',
  },
  evaluate: ({ alpha }) => alpha / (1 - alpha),
  partials: ({ alpha }) => ({ alpha: 1 / (1 - alpha) ** 2 }),
  domain: { alpha: [0.5, 0.95] },
})

/** Difference of two currents, for telling them apart. */
export const currentDifference = formula({
  id: 'reduce/current-difference',
  version: 1,
  text: 'd = I1 - I2',
  unit: 'A',
  inputs: { first: 'A', second: 'A' },
  symbols: { first: 'I1', second: 'I2' },
  source: { title: 'difference of two readings', standing: 'common practice' },
  evaluate: ({ first, second }) => first - second,
  partials: () => ({ first: 1, second: -1 }),
  domain: { first: [2e-6, 1e-2], second: [1e-8, 1e-6] },
})

/** Gain formulas, for the registry. */
export const gainFormulas = [
  gainRatio,
  gainLessLeakage,
  dialledLessLeakage,
  gainLessCutoff,
  dialledLessCutoff,
  baseFromGain,
  gainAtLeakage,
  openBaseLeakage,
  gainFromAlpha,
  currentDifference,
] as const
