import type { AnyFormula } from '#core/quantity'
import {
  baseFromGain,
  dialledLessCutoff,
  dialledLessLeakage,
  gainLessCutoff,
  gainLessLeakage,
  gainRatio,
} from './gain.ts'
import { emissionVoltage, idealityFromEmission, idealityTwoPoints, seriesResistance } from './junction.ts'
import { junctionTemperatureAt, power } from './operating-point.ts'
import {
  earlyVoltage,
  inputResistance,
  inputResistanceTwoPoints,
  outputConductance,
  smallSignalGain,
  transconductance,
  transconductanceTwoPoints,
} from './small-signal.ts'

/**
 * What a recipe works over: one operating point; two points that differ in current; two that differ in collector
 * voltage; three that differ in current.
 */
export type Scope = 'point' | 'current pair' | 'voltage pair' | 'triple'

/**
 * How one parameter follows from readings. Recipes are tried in the order of the table; for one symbol and one scope
 * the first whose needs are all there is used.
 *
 * A need is a symbol at the point (`I_C`); `read I_C` only where it was read, not derived; `leak I_CEO` the part's
 * leakage carried to the point's voltage and temperature; `1 I_C`, `2 I_C`, `3 I_C` at the first, second, third point;
 * in lower case what every point has: `ideality`, `kelvin`, `ambient`, `whole`, `rth`.
 */
export interface Recipe {
  readonly symbol: string
  readonly scope: Scope
  /** Left out: as read. */
  readonly formula?: AnyFormula
  readonly needs: Readonly<Record<string, string>>
  /** Only a step on the way, not listed as a parameter. */
  readonly isStep?: true
}

const asRead = (symbol: string): Recipe => ({ symbol, scope: 'point', needs: { value: `read ${symbol}` } })

/** The table: which readings give which parameter by which formula. Leakages are listed as read besides. */
export const recipes: readonly Recipe[] = [
  asRead('h_FE'),
  asRead('V_BE'),
  asRead('V_CE(sat)'),
  asRead('V_F'),
  {
    symbol: 'I_B',
    scope: 'point',
    formula: baseFromGain,
    needs: { collector: 'read I_C', gain: 'read h_FE' },
    isStep: true,
  },
  { symbol: 'h_FE', scope: 'point', formula: gainRatio, needs: { collector: 'read I_C', base: 'read I_B' } },
  {
    symbol: 'h_FE0',
    scope: 'point',
    formula: dialledLessLeakage,
    needs: { gain: 'read h_FE', leakage: 'leak I_CEO', collector: 'read I_C' },
  },
  {
    symbol: 'h_FE0',
    scope: 'point',
    formula: gainLessLeakage,
    needs: { collector: 'read I_C', leakage: 'leak I_CEO', base: 'read I_B' },
  },
  {
    symbol: 'h_FE0(I_CBO)',
    scope: 'point',
    formula: dialledLessCutoff,
    needs: { collector: 'read I_C', gain: 'read h_FE', cutoff: 'leak I_CBO' },
  },
  {
    symbol: 'h_FE0(I_CBO)',
    scope: 'point',
    formula: gainLessCutoff,
    needs: { collector: 'read I_C', base: 'read I_B', cutoff: 'leak I_CBO' },
  },
  { symbol: 'P', scope: 'point', formula: power, needs: { voltage: 'V_CE', current: 'I_C' } },
  { symbol: 'P', scope: 'point', formula: power, needs: { voltage: 'V_F', current: 'I_F' } },
  {
    symbol: 'T_J',
    scope: 'point',
    formula: junctionTemperatureAt,
    needs: { ambient: 'ambient', share: 'whole', power: 'P', resistance: 'rth' },
  },
  {
    symbol: 'g_m',
    scope: 'point',
    formula: transconductance,
    needs: { collector: 'I_C', ideality: 'ideality', temperature: 'kelvin' },
  },
  {
    symbol: 'h_fe',
    scope: 'current pair',
    formula: smallSignalGain,
    needs: { collector1: '1 I_C', collector2: '2 I_C', base1: '1 I_B', base2: '2 I_B' },
  },
  {
    symbol: 'g_m',
    scope: 'current pair',
    formula: transconductanceTwoPoints,
    needs: { collector1: '1 I_C', collector2: '2 I_C', voltage1: '1 V_BE', voltage2: '2 V_BE' },
  },
  {
    symbol: 'h_ie',
    scope: 'current pair',
    formula: inputResistanceTwoPoints,
    needs: { voltage1: '1 V_BE', voltage2: '2 V_BE', base1: '1 I_B', base2: '2 I_B' },
  },
  {
    symbol: 'h_ie',
    scope: 'current pair',
    formula: inputResistance,
    needs: { gain: 'h_fe', ideality: 'ideality', temperature: 'kelvin', collector: 'I_C' },
  },
  {
    symbol: 'n',
    scope: 'current pair',
    formula: idealityTwoPoints,
    needs: { voltage1: '1 V_BE', voltage2: '2 V_BE', current1: '1 I_C', current2: '2 I_C', temperature: 'kelvin' },
  },
  {
    symbol: 'n',
    scope: 'current pair',
    formula: idealityTwoPoints,
    needs: { voltage1: '1 V_F', voltage2: '2 V_F', current1: '1 I_F', current2: '2 I_F', temperature: 'kelvin' },
  },
  {
    symbol: 'h_oe',
    scope: 'voltage pair',
    formula: outputConductance,
    needs: { collector1: '1 I_C', collector2: '2 I_C', voltage1: '1 V_CE', voltage2: '2 V_CE' },
  },
  {
    symbol: 'V_A',
    scope: 'voltage pair',
    formula: earlyVoltage,
    needs: { collector1: '1 I_C', collector2: '2 I_C', voltage1: '1 V_CE', voltage2: '2 V_CE' },
  },
  {
    symbol: 'R_S',
    scope: 'triple',
    formula: seriesResistance,
    needs: {
      voltage1: '1 V_F',
      voltage2: '2 V_F',
      voltage3: '3 V_F',
      current1: '1 I_F',
      current2: '2 I_F',
      current3: '3 I_F',
    },
  },
  {
    symbol: 'n V_T',
    scope: 'triple',
    formula: emissionVoltage,
    needs: {
      voltage1: '1 V_F',
      voltage2: '2 V_F',
      voltage3: '3 V_F',
      current1: '1 I_F',
      current2: '2 I_F',
      current3: '3 I_F',
    },
    isStep: true,
  },
  {
    symbol: 'n',
    scope: 'triple',
    formula: idealityFromEmission,
    needs: { emission: 'n V_T', temperature: 'kelvin' },
  },
]
