import { findRoot } from '#core/numeric'
import { kelvin } from '#core/physics'

/**
 * Air at 1 atm, at the mean of wire and room: conductivity W/(m K), kinematic viscosity m2/s, Prandtl number. Lines through
 * a textbook's table from 300 K to 500 K. Source: Incropera, Fundamentals of Heat and Mass Transfer, table A.4 (from memory).
 */
function airAt(filmK: number): { readonly conductivity: number; readonly viscosity: number; readonly prandtl: number } {
  const t = filmK - 300
  return {
    conductivity: 0.0263 + 7.2e-5 * t,
    viscosity: 1.589e-5 * (filmK / 300) ** 1.76,
    prandtl: 0.706 - 1.15e-4 * t,
  }
}

/** Constants of Nu = c Ra^n for a horizontal cylinder, up to each Rayleigh number. Source: Morgan (1975), from memory. */
const morgan = [
  { upTo: 1e-2, c: 0.675, n: 0.058 },
  { upTo: 1e2, c: 1.02, n: 0.148 },
  { upTo: 1e4, c: 0.85, n: 0.188 },
  { upTo: Number.POSITIVE_INFINITY, c: 0.48, n: 0.25 },
] as const

/** Emissivity of an oxidised or lacquered wire (common practice). */
const emissivity = 0.7
const stefanBoltzmann = 5.670374e-8

/** Heat a metre of bare horizontal wire gives to still air, W/m. */
export function heatGiven(diameterM: number, wireC: number, ambientC: number): number {
  const [wireK, roomK] = [kelvin(wireC), kelvin(ambientC)]
  const filmK = (wireK + roomK) / 2
  const { conductivity, viscosity, prandtl } = airAt(filmK)
  const rayleigh = ((9.81 / filmK) * (wireK - roomK) * diameterM ** 3 * prandtl) / viscosity ** 2
  const { c, n } = morgan.find((band) => rayleigh <= band.upTo)!
  const convection = Math.PI * conductivity * c * rayleigh ** n * (wireK - roomK)
  const radiation = Math.PI * diameterM * emissivity * stefanBoltzmann * (wireK ** 4 - roomK ** 4)
  return convection + radiation
}

/** Beyond this a shunt is no shunt: above any melting solder, degC. */
const hottestC = 900

/**
 * Temperature a bare wire reaches in still air, degC; undefined where it would glow.
 *
 * @param wattPerMetre heat made in a metre of it
 * @see Morgan's correlation for free convection, and radiation; within 15 % of a maker's table of currents
 */
export function wireTemperature(diameterM: number, wattPerMetre: number, ambientC: number): number | undefined {
  if (heatGiven(diameterM, hottestC, ambientC) < wattPerMetre) return undefined
  return findRoot((t) => heatGiven(diameterM, t, ambientC) - wattPerMetre, ambientC, hottestC, { tolerance: 1e-6 })
}
