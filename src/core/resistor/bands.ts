import { type Fault, FaultError } from '#core/fault'

/** What a colour stands for in each place: digit, power of ten, tolerance in percent, temperature coefficient in ppm/K. */
interface Colour {
  readonly digit?: number
  readonly power?: number
  readonly percent?: number
  readonly ppmPerK?: number
}

/** Colours of resistor bands. Source: IEC 60062:2016; before it, grey stood for 0.05 %. */
export const bandColours = {
  black: { digit: 0, power: 0, ppmPerK: 250 },
  brown: { digit: 1, power: 1, percent: 1, ppmPerK: 100 },
  red: { digit: 2, power: 2, percent: 2, ppmPerK: 50 },
  orange: { digit: 3, power: 3, percent: 0.05, ppmPerK: 15 },
  yellow: { digit: 4, power: 4, percent: 0.02, ppmPerK: 25 },
  green: { digit: 5, power: 5, percent: 0.5, ppmPerK: 20 },
  blue: { digit: 6, power: 6, percent: 0.25, ppmPerK: 10 },
  violet: { digit: 7, power: 7, percent: 0.1, ppmPerK: 5 },
  grey: { digit: 8, power: 8, percent: 0.01, ppmPerK: 1 },
  white: { digit: 9, power: 9 },
  gold: { power: -1, percent: 5 },
  silver: { power: -2, percent: 10 },
  pink: { power: -3 },
} as const satisfies Readonly<Record<string, Colour>>

/** What the bands of a resistor say. */
export interface BandedResistor {
  readonly ohm: number
  /** Limit of error as a part of the value. */
  readonly tolerance: number
  /** Temperature coefficient, 1/K; six bands only. */
  readonly perK?: number
}

/**
 * Reads three to six colour bands; three bands are a resistor of 20 %.
 *
 * @throws {FaultError} `bad-input`, one fault for each band that cannot stand in its place
 * @see IEC 60062:2016, clause 3
 * @example readBands(['yellow', 'violet', 'red', 'gold']) // { ohm: 4700, tolerance: 0.05 }
 */
export function readBands(bands: readonly string[]): BandedResistor {
  const places = placesOf(bands)
  const faults: Fault[] = []
  const values = places.map((place, i) => {
    const colour: Colour | undefined = Object.entries(bandColours).find(
      ([name]) => name === bands[i]!.trim().toLowerCase(),
    )?.[1]
    const value = colour?.[place]
    if (value === undefined) faults.push(bandFault(bands[i]!, i, place))
    return value ?? 0
  })
  if (faults.length > 0) throw new FaultError(faults)
  const at = (place: keyof Colour): number | undefined => values[places.indexOf(place)]
  const digits = values.filter((_, i) => places[i] === 'digit').join('')
  const ppm = at('ppmPerK')
  return {
    ohm: Number(`${digits}e${at('power')}`),
    tolerance: (at('percent') ?? 20) / 100,
    ...(ppm === undefined ? {} : { perK: ppm / 1e6 }),
  }
}

/**
 * The colours that say a resistor in so many bands; undefined where that many cannot say it: too many digits, a limit
 * of error without a colour, a drift without a band. Three bands are a resistor of 20 %.
 *
 * @see IEC 60062:2016, clause 3
 * @example writeBands({ ohm: 4700, tolerance: 0.05 }, 4) // ['yellow', 'violet', 'red', 'gold']
 */
export function writeBands(r: BandedResistor, count: 3 | 4 | 5 | 6): readonly string[] | undefined {
  if ((count === 3) !== (r.tolerance === 0.2) || (count === 6) !== (r.perK !== undefined)) return undefined
  const width = count < 5 ? 2 : 3
  const power = Math.floor(Math.log10(r.ohm) + 1e-12) + 1 - width
  const digits = Math.round(r.ohm / 10 ** power)
  if (Math.abs((digits * 10 ** power) / r.ohm - 1) > 1e-9) return undefined
  const values = { power, percent: r.tolerance * 100, ppmPerK: (r.perK ?? 0) * 1e6 }
  let at = 0
  const names = placesOf(Array(count).fill('')).map((place) =>
    colourOf(place, place === 'digit' ? Number(String(digits)[at++]) : values[place]),
  )
  return names.every((name) => name !== undefined) ? names : undefined
}

/** Name of the colour that has a value in a place. */
const colourOf = (place: keyof Colour, value: number): string | undefined =>
  Object.entries(bandColours).find(([, c]: readonly [string, Colour]) => {
    const there = c[place]
    return there !== undefined && Math.abs(there - value) <= 1e-9 * Math.abs(value)
  })?.[0]

function placesOf(bands: readonly string[]): readonly (keyof Colour)[] {
  switch (bands.length) {
    case 3:
      return ['digit', 'digit', 'power']
    case 4:
      return ['digit', 'digit', 'power', 'percent']
    case 5:
      return ['digit', 'digit', 'digit', 'power', 'percent']
    case 6:
      return ['digit', 'digit', 'digit', 'power', 'percent', 'ppmPerK']
  }
  throw new FaultError({ code: 'out-of-domain', name: 'count of bands', value: bands.length, allowed: '3 to 6' })
}

const placeWords = {
  digit: 'a digit',
  power: 'the multiplier',
  percent: 'the tolerance',
  ppmPerK: 'the drift',
} as const

const bandFault = (band: string, i: number, place: keyof Colour): Fault => ({
  code: 'bad-input',
  place: { field: `band ${i + 1}` },
  value: band,
  ...(Object.hasOwn(bandColours, band.trim().toLowerCase())
    ? {
        problem: `cannot stand for ${placeWords[place]}`,
        mend: 'Check the colour, or read the resistor from its other end.',
      }
    : { problem: 'is no colour of a band', mend: `Write one of: ${Object.keys(bandColours).join(', ')}.` }),
})
