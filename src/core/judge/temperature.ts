import { leaf, type Quantity, term } from '#core/quantity'
import type { Parameter } from '#core/reduce'

/** Temperature of the junction a parameter was measured at; the room's where nothing more is known. */
export const junctionTemperature = (p: Parameter): Quantity<'degC'> =>
  p.junction ??
  leaf(p.temperatureC, 'degC', { kind: 'stated', what: 'temperature' }, [
    term('thermometer', { label: 'ambient temperature', u: 1, slope: p.temperatureU }),
  ])
