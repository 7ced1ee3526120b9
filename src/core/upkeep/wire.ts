/** Diameter of an American wire gauge, m; 0000 is -3. @see ASTM B258: 0.005 in x 92^((36 - n) / 39) */
export const gaugeDiameterM = (awg: number): number => 0.005 * 0.0254 * 92 ** ((36 - awg) / 39)

/** What a resistance wire is made of: values with the spread of what is published, since compositions differ. */
export interface Alloy {
  readonly name: string
  /** Resistivity at 20 degC, ohm m: lowest and highest published. */
  readonly resistivity: readonly [low: number, high: number]
  /** Change per kelvin near 20 degC, 1/K: lowest and highest published. */
  readonly perK: readonly [low: number, high: number]
  /** Thermal electromotive force against copper, V/K (from memory). */
  readonly thermalVPerK: number
}

/**
 * Wires shunts are made of. Copper is that of IEC 60028; the alloys are given as ranges of what wire tables and
 * encyclopedias say, which disagree.
 */
export const alloys = {
  copper: { name: 'copper', resistivity: [1 / 58e6, 1 / 58e6], perK: [0.00393, 0.00393], thermalVPerK: 0 },
  manganin: { name: 'manganin', resistivity: [4.3e-7, 4.82e-7], perK: [-1.5e-5, 1.5e-5], thermalVPerK: 1e-6 },
  constantan: { name: 'constantan', resistivity: [4.538e-7, 4.9e-7], perK: [-7.4e-5, 8e-6], thermalVPerK: 40e-6 },
  nichrome: { name: 'nichrome', resistivity: [1.075e-6, 1.1e-6], perK: [9e-5, 4e-4], thermalVPerK: 5e-6 },
} as const satisfies Readonly<Record<string, Alloy>>

export type AlloyName = keyof typeof alloys

/** Resistance of a metre of wire at 20 degC, ohm/m: lowest and highest. */
export function ohmPerMetre(alloy: Alloy, diameterM: number): readonly [low: number, high: number] {
  const area = (Math.PI / 4) * diameterM ** 2
  return [alloy.resistivity[0] / area, alloy.resistivity[1] / area]
}
