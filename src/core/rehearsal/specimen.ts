import type { Device } from '#core/circuit'
import { Random } from '#core/numeric'

/** How parts of one kind lie about the middle one. */
export interface Lot {
  /** How far at most, as a part: 0.2 is from 1/1.22 to 1.22 times. */
  readonly spread: number
  readonly seed: number
  /** Which of the lot. */
  readonly name: string
}

/**
 * A part of the same kind as another: gain, saturation currents and leakage over the surface are its own, each drawn
 * evenly on a logarithmic scale.
 */
export function specimen(device: Device, { spread, seed, name }: Lot): Device {
  const random = new Random(seed, `specimen ${name}`)
  const factor = (): number => Math.exp(spread * (2 * random.uniform() - 1))
  const current = factor()
  const gain = factor()
  const leak = factor()
  if (device.kind === 'diode') {
    const { is } = device.card
    return {
      ...device,
      card: { ...device.card, ...(is === undefined ? {} : { is: is * current }) },
      ...(device.parallelOhm === undefined ? {} : { parallelOhm: device.parallelOhm * leak }),
    }
  }
  if (device.kind !== 'bipolar') return device
  const { is, bf, ise, isc } = device.card
  const { cb, ce } = device.leakOhm ?? {}
  return {
    ...device,
    card: {
      ...device.card,
      ...(is === undefined ? {} : { is: is * current }),
      ...(ise === undefined ? {} : { ise: ise * current }),
      ...(isc === undefined ? {} : { isc: isc * leak }),
      ...(bf === undefined ? {} : { bf: bf * gain }),
    },
    leakOhm: { ...(cb === undefined ? {} : { cb: cb * leak }), ...(ce === undefined ? {} : { ce: ce * leak }) },
  }
}
