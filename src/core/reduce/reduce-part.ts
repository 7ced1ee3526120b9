import { exact, type Quantity } from '#core/quantity'
import { applyRecipes, type Outcome } from './apply.ts'
import { toTemperature } from './carry.ts'
import { closeDoubt, gainDoubts, materialDoubt, orderDoubt, readingDoubts } from './doubt.ts'
import { type LeakagePair, leakagePair } from './leakage-pair.ts'
import type { Doubt, Parameter, PartResult } from './parameter.ts'
import { junctionOf, leakageConditions, type PartContext, type Point, pointsOf } from './point.ts'
import { type Held, lawMaterial } from './seen.ts'

/** Gain symbols, in the order in which they are preferred: leakage taken out first. */
export const gainSymbols = ['h_FE0', 'h_FE0(I_CBO)', 'h_FE'] as const
const isGain = (symbol: string): boolean => (gainSymbols as readonly string[]).includes(symbol)

const reference = exact(25, 'degC', 'reference temperature')

/** A parameter with the temperature of its junction, for bringing it to 25 degC. */
interface Made {
  readonly parameter: Parameter
  readonly temperature: Quantity<'degC'>
}

/** All parameters of one part that is neither short nor open. */
export function reducePart(c: PartContext, held: readonly Held[], before: readonly Doubt[]): PartResult {
  const outcomes = applyRecipes(c, pointsOf(held))
  const order = orderDoubt(leakageOf(c, 'I_CEO'), leakageOf(c, 'I_CBO'))
  const derived = outcomes.filter((o) => o.quantity !== undefined).map((o) => derivedParameter(c, o))
  const made = [...c.leakages.map((h) => leakageParameter(c, h, order)), ...derived]
  const bestGain = gainSymbols.find((s) => derived.some((m) => m.parameter.symbol === s))
  const pair = order === undefined ? pairOf(c, derived) : undefined
  const all = [
    ...made.map((m) => m.parameter),
    ...(pair?.gain === undefined ? [] : [pairParameter(c, pair.gain)]),
    ...(c.at25 ? made.flatMap((m) => broughtTo25(c, m, bestGain)) : []),
  ]
  const identity = materialUnlike(all)
  const found = [order, pairDoubt(pair), identity].filter((d) => d !== undefined)
  return {
    part: c.part,
    ...typeName(c),
    state: 'measured',
    parameters: identity === undefined ? all : all.map((p) => withDoubt(p, identity)),
    ...(pair === undefined ? {} : { pair }),
    doubts: [...before, ...outcomes.filter((o) => o.quantity === undefined).map(noNumber), ...found],
  }
}

function materialUnlike(all: readonly Parameter[]): Doubt | undefined {
  for (const p of all) for (const d of p.doubts) if (d.code === 'material-unlike') return d
  return undefined
}

const typeName = (c: PartContext): { readonly type?: string } => (c.typeName === undefined ? {} : { type: c.typeName })
const leakageOf = (c: PartContext, symbol: string): Held | undefined => c.leakages.find((h) => h.symbol === symbol)
const withDoubt = (p: Parameter, d: Doubt): Parameter =>
  p.doubts.some((x) => x.code === d.code) ? p : { ...p, doubts: [...p.doubts, d] }

const withoutJunction = ({ junction: _, ...rest }: Parameter): Parameter => rest

const noNumber = (o: Outcome): Doubt => ({
  code: 'no-number',
  say: `${o.recipe.symbol} cannot be worked out at point ${o.frame.points.map((p) => p.number).join(' and ')}: a reading it is divided by is nothing. Read it on a finer range.`,
  weight: 'notice',
})

function leakageParameter(c: PartContext, h: Held, order: Doubt | undefined): Made {
  const concerned = order !== undefined && (h.symbol === 'I_CEO' || h.symbol === 'I_CBO')
  const parameter: Parameter = {
    part: c.part,
    ...typeName(c),
    symbol: h.symbol,
    quantity: h.quantity,
    conditions: leakageConditions(h),
    temperatureC: h.ambient.quantity.value,
    temperatureU: h.ambient.u,
    junction: h.ambient.quantity,
    points: [h.point],
    standing: 'measured',
    doubts: [...readingDoubts(h, c), ...(concerned ? [order] : [])],
  }
  return { parameter, temperature: h.ambient.quantity }
}

function derivedParameter(c: PartContext, o: Outcome): Made {
  const p = o.frame.points[0]!
  const quantity = o.quantity!
  const temperature = junctionOf(c, p)
  const parameter: Parameter = {
    part: c.part,
    ...typeName(c),
    symbol: o.recipe.symbol,
    quantity,
    conditions: o.frame.conditions,
    temperatureC: p.ambient.quantity.value,
    temperatureU: p.ambient.u,
    junction: temperature,
    points: o.frame.points.map((x) => x.number),
    standing: 'measured',
    doubts: doubtsOf(c, o, quantity),
  }
  return { parameter, temperature }
}

function doubtsOf(c: PartContext, o: Outcome, q: Quantity): Doubt[] {
  const { symbol, needs } = o.recipe
  const doubts: Doubt[] = []
  for (const p of o.frame.points)
    for (const h of readBehind(p, Object.values(needs))) doubts.push(...readingDoubts(h, c))
  if (isGain(symbol)) doubts.push(...gainDoubts(symbol, q, c, o.frame.points[0]!))
  const material = symbol === 'V_BE' ? materialDoubt(q, c) : undefined
  const close = o.frame.points.length > 1 ? closeDoubt(symbol, q) : undefined
  for (const d of [material, close]) if (d !== undefined) doubts.push(d)
  if (doubts.length < 2) return doubts
  return doubts.filter((d, i) => doubts.findIndex((x) => x.say === d.say) === i)
}

/** Readings at a point that a recipe's needs name. */
const readBehind = (p: Point, needs: readonly string[]): Held[] =>
  [...p.read.values()].filter((h) => needs.some((n) => n === h.symbol || n.endsWith(` ${h.symbol}`)))

function pairOf(c: PartContext, derived: readonly Made[]): LeakagePair | undefined {
  const leakage = leakageOf(c, 'I_CEO')
  const cutoff = leakageOf(c, 'I_CBO')
  if (leakage === undefined || cutoff === undefined) return undefined
  const gain = gainSymbols
    .map((s) => derived.find((m) => m.parameter.symbol === s)?.parameter)
    .find((p) => p?.doubts.every((d) => d.weight !== 'nonsense'))?.quantity
  return leakagePair(
    leakage.quantity as Quantity<'A'>,
    cutoff.quantity as Quantity<'A'>,
    gain as Quantity<'1'> | undefined,
  )
}

const pairDoubt = (pair: LeakagePair | undefined): Doubt | undefined =>
  pair === undefined || pair.word === 'consistent'
    ? undefined
    : { code: 'leakage-pair', say: pair.say, weight: 'notice' }

function pairParameter(c: PartContext, gain: Quantity<'1'>): Parameter {
  const leakage = leakageOf(c, 'I_CEO')!
  return {
    part: c.part,
    ...typeName(c),
    symbol: 'h_FE(I_CEO)',
    quantity: gain,
    conditions: { ...leakageConditions(leakage), I_C: leakage.quantity.value },
    temperatureC: leakage.ambient.quantity.value,
    temperatureU: leakage.ambient.u,
    points: [leakage.point, leakageOf(c, 'I_CBO')!.point],
    standing: 'measured',
    doubts: [],
  }
}

function broughtTo25(c: PartContext, m: Made, bestGain: string | undefined): Parameter[] {
  const material = lawMaterial(c.type)
  if (material === undefined) return []
  const { parameter } = m
  if (isGain(parameter.symbol) && parameter.symbol !== bestGain) return []
  const q = toTemperature(parameter.symbol, parameter.quantity, m.temperature, reference, { part: c.part, material })
  if (q === undefined) return []
  return [
    {
      ...withoutJunction(parameter),
      quantity: q,
      conditions: { ...parameter.conditions, T: 25 },
      temperatureC: 25,
      temperatureU: 0,
      standing: 'brought to 25 C',
    },
  ]
}
