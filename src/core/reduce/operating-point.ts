import { zeroCelsius } from '#core/physics'
import { formula } from '#core/quantity'

/** A temperature in kelvin. */
export const kelvinOf = formula({
  id: 'reduce/kelvin',
  version: 1,
  text: 'T = t + 273.15 K',
  unit: 'K',
  inputs: { celsius: 'degC' },
  symbols: { celsius: 't' },
  source: zeroCelsius.source,
  evaluate: ({ celsius }) => celsius + zeroCelsius.value,
  partials: () => ({ celsius: 1 }),
  domain: { celsius: [-20, 90] },
})

/** Mean of repeated readings, one after the other; a cause they share stays whole, their own causes shrink. */
export const runningMean = {
  A: meanOf('A'),
  V: meanOf('V'),
  '1': meanOf('1'),
} as const

function meanOf<const U extends 'A' | 'V' | '1'>(unit: U) {
  const name = { A: 'current', V: 'voltage', '1': 'gain' }[unit]
  return formula({
    id: `reduce/mean-${name}`,
    version: 1,
    text: 'mean = ((N - 1) m + x) / N',
    unit,
    inputs: { mean: unit, next: unit, count: '1' },
    symbols: { mean: 'm', next: 'x', count: 'N' },
    source: { title: 'JCGM 100:2008', where: '4.2.1' },
    evaluate: ({ mean, next, count }) => mean + (next - mean) / count,
    partials: ({ mean, next, count }) => ({ mean: 1 - 1 / count, next: 1 / count, count: (mean - next) / count ** 2 }),
    domain: { mean: [0.1, 1], next: [0.1, 1], count: [2, 10] },
  })
}

/** A mean with what its readings scatter more than they should. */
export const scattered = {
  A: withScatter('A'),
  V: withScatter('V'),
  '1': withScatter('1'),
} as const

function withScatter<const U extends 'A' | 'V' | '1'>(unit: U) {
  const name = { A: 'current', V: 'voltage', '1': 'gain' }[unit]
  return formula({
    id: `reduce/scatter-${name}`,
    version: 1,
    text: 'x = mean + e',
    unit,
    inputs: { mean: unit, scatter: unit },
    symbols: { mean: 'mean', scatter: 'e' },
    source: { title: 'JCGM 100:2008', where: '4.2.3' },
    evaluate: ({ mean, scatter }) => mean + scatter,
    partials: () => ({ mean: 1, scatter: 1 }),
    domain: { mean: [0.1, 1], scatter: [-0.01, 0.01] },
  })
}

/** Power turned into heat. */
export const power = formula({
  id: 'reduce/power',
  version: 1,
  text: 'P = V I',
  unit: 'W',
  inputs: { voltage: 'V', current: 'A' },
  symbols: { voltage: 'V', current: 'I' },
  source: { title: 'definition of electric power' },
  evaluate: ({ voltage, current }) => voltage * current,
  partials: ({ voltage, current }) => ({ voltage: current, current: voltage }),
  domain: { voltage: [0.1, 30], current: [1e-6, 1] },
})

/** Junction temperature after a share of the way to steady heat; a share of 1 is left on for good. */
export const junctionTemperatureAt = formula({
  id: 'reduce/junction-temperature',
  version: 1,
  text: 'T_J = T_A + s P R_thJA',
  unit: 'degC',
  inputs: { ambient: 'degC', share: '1', power: 'W', resistance: 'K/W' },
  symbols: { ambient: 'T_A', share: 's', power: 'P', resistance: 'R_thJA' },
  source: { title: 'JESD51, definition of thermal resistance', standing: 'from memory' },
  evaluate: ({ ambient, share, power, resistance }) => ambient + share * power * resistance,
  partials: ({ share, power, resistance }) => ({
    ambient: 1,
    share: power * resistance,
    power: share * resistance,
    resistance: share * power,
  }),
  domain: { ambient: [0, 50], share: [0.1, 1], power: [1e-3, 0.2], resistance: [50, 500] },
})

/** Operating-point formulas, for the registry. */
export const operatingPointFormulas = [
  kelvinOf,
  runningMean.A,
  runningMean.V,
  runningMean['1'],
  scattered.A,
  scattered.V,
  scattered['1'],
  power,
  junctionTemperatureAt,
] as const
