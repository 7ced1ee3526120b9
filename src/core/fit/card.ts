import { type Device, writeModelCard } from '#core/circuit'
import type { CurveFit } from './describe-fit.ts'

/** The part of a fit as a circuit takes it. */
export function fittedDevice(fit: CurveFit): Device {
  const entries = fit.parameters.flatMap((p): [string, number][] =>
    p.card === undefined || (p.standing === 'held' && p.value === 0) ? [] : [[p.card, p.value]],
  )
  const card = Object.fromEntries([...entries, ...breakdownCurrent(fit), ['tnom', fit.temperatureC]])
  switch (fit.kind) {
    case 'diode':
      return { kind: 'diode', card } as Device
    case 'bjt':
      return { kind: 'bipolar', polarity: fit.polarity === 'n' ? 'npn' : 'pnp', card } as Device
    case 'jfet':
      return { kind: 'jfet', polarity: fit.polarity, card } as Device
    case 'mosfet':
      return {
        kind: 'mosfet',
        polarity: fit.polarity,
        card: { ...card, ...(fit.polarity === 'p' ? { vto: -(card.vto ?? 0) } : {}), w: 1, l: 1 },
      } as Device
  }
}

function breakdownCurrent(fit: CurveFit): readonly [string, number][] {
  if (!fit.parameters.some((p) => p.card === 'bv')) return []
  const most = fit.residuals.reduce((m, r) => Math.min(m, r.measured), 0)
  return [['ibv', -most]]
}

const figures = (x: number): string => String(Number(x.toPrecision(4)))

const temperatureWords = (fit: CurveFit): string =>
  fit.parameters.some((p) => p.card === 'eg')
    ? 'It was fitted to leakage against temperature: its forward current was not read.'
    : 'The temperature law (EG, XTI) was not fitted.'

/**
 * The fit as a `.model` card that SPICE programs read, with temperature, range of validity, date and uncertainties in
 * comments.
 *
 * @param date when it was fitted, as it shall be printed
 */
export function fitCard(fit: CurveFit, name: string, date: string): string {
  const currents = fit.residuals.map((r) => Math.abs(r.measured))
  const least = currents.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
  const most = currents.reduce((a, b) => Math.max(a, b), 0)
  const comments = [
    `${fit.name}: fitted ${date} to ${fit.points} readings at ${fit.temperatureC} degC; parameters hold at TNOM.`,
    `Valid from ${figures(least)} A to ${figures(most)} A. ${temperatureWords(fit)}`,
    ...fit.parameters.map((p) =>
      p.u === undefined
        ? `${p.symbol} held at ${figures(p.value)}: ${p.why ?? ''}`
        : `${p.symbol} ${figures(p.value)} ${p.unit === '1' ? '' : `${p.unit} `}standard uncertainty ${figures(p.u)}`,
    ),
  ]
  return writeModelCard(name, fittedDevice(fit), comments)
}
