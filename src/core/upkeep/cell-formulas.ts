import { type AnyFormula, formula } from '#core/quantity'

/** Resistance inside a set of cells, from its voltage at two currents. */
export const resistanceByCurrents = formula({
  id: 'upkeep/cell-resistance-by-currents',
  version: 1,
  text: 'R_i = (V_0 - V_1) / (I_1 - I_0)',
  unit: 'ohm',
  inputs: { rest: 'V', loaded: 'V', load: 'A', restCurrent: 'A' },
  symbols: { rest: 'V_0', loaded: 'V_1', load: 'I_1', restCurrent: 'I_0' },
  source: { title: 'dual load test', where: 'change of voltage over change of current, as makers of cells have it' },
  evaluate: ({ rest, loaded, load, restCurrent }) => (rest - loaded) / (load - restCurrent),
  partials: ({ rest, loaded, load, restCurrent }) => {
    const step = load - restCurrent
    const value = (rest - loaded) / step
    return { rest: 1 / step, loaded: -1 / step, load: -value / step, restCurrent: value / step }
  },
  domain: { rest: [1.2, 10], loaded: [0.9, 8], load: [0.05, 2], restCurrent: [0, 0.01] },
})

/** The same from one resistor laid across the set. */
export const resistanceByResistor = formula({
  id: 'upkeep/cell-resistance-by-resistor',
  version: 1,
  text: 'R_i = R_L (V_0 - V_1) / V_1',
  unit: 'ohm',
  inputs: { rest: 'V', loaded: 'V', resistor: 'ohm' },
  symbols: { rest: 'V_0', loaded: 'V_1', resistor: 'R_L' },
  source: { title: "Linden's Handbook of Batteries", where: '9.6.6.1, voltage-drop method' },
  evaluate: ({ rest, loaded, resistor }) => (resistor * (rest - loaded)) / loaded,
  partials: ({ rest, loaded, resistor }) => ({
    rest: resistor / loaded,
    loaded: (-resistor * rest) / loaded ** 2,
    resistor: (rest - loaded) / loaded,
  }),
  domain: { rest: [1.2, 10], loaded: [0.9, 8], resistor: [1, 100] },
})

/** Voltage left at a tap of the set under a load; the cells are alike. */
export const voltageAtTap = formula({
  id: 'upkeep/cell-voltage-at-tap',
  version: 1,
  text: 'V = k (V_0 - I R_i)',
  unit: 'V',
  inputs: { share: '1', rest: 'V', load: 'A', inner: 'ohm' },
  symbols: { share: 'k', rest: 'V_0', load: 'I', inner: 'R_i' },
  source: { title: "Ohm's law", where: 'source resistance in series with the load' },
  evaluate: ({ share, rest, load, inner }) => share * (rest - load * inner),
  partials: ({ share, rest, load, inner }) => ({
    share: rest - load * inner,
    rest: share,
    load: -share * inner,
    inner: -share * load,
  }),
  domain: { share: [0.1, 1], rest: [1.2, 10], load: [0, 2], inner: [0.05, 5] },
})

/** The laws of cells, to be looked up by workings. */
export const cellFormulas: readonly AnyFormula[] = [resistanceByCurrents, resistanceByResistor, voltageAtTap]
