import type { Conditions } from '#core/device'
import { derive, exact, type Quantity } from '#core/quantity'
import type { LeakageSymbol } from './carry.ts'
import { runningMean } from './operating-point.ts'
import { conditionsOf, given, leakageAt, type PartContext, type Point } from './point.ts'
import { type Recipe, recipes, type Scope } from './recipe.ts'

/** What recipes work on: some points of one part, and what follows from them together. */
export interface Frame {
  readonly scope: Scope
  readonly points: readonly Point[]
  readonly values: Map<string, Quantity>
  readonly conditions: Conditions
}

/** One result of the recipe table. */
export interface Outcome {
  readonly recipe: Recipe
  readonly frame: Frame
  /** Left out where the formula gives no number, as a gain with no base current. */
  readonly quantity?: Quantity
}

/** Points count as one collector voltage within this factor, and as two beyond; and as two currents (common practice). */
const near = { voltage: 1.2, current: 1.02, base: 1.05 } as const

const within = (a: number, b: number, factor: number): boolean =>
  a > 0 && b > 0 && Math.max(a, b) <= factor * Math.min(a, b)

/** The sets of points that the recipes work over. */
export function framesOf(points: readonly Point[]): Frame[] {
  const single = points.map(
    (p): Frame => ({ scope: 'point', points: [p], values: p.values, conditions: conditionsOf(p) }),
  )
  const drive = (p: Point): number => (p.values.get('I_C') ?? p.values.get('I_F'))?.value ?? Number.NaN
  const driven = points.filter((p) => drive(p) > 0).sort((a, b) => drive(a) - drive(b))
  return [...single, ...pairs(driven, drive), ...triples(driven)]
}

function pairs(driven: readonly Point[], drive: (p: Point) => number): Frame[] {
  const frames: Frame[] = []
  for (let i = 0; i + 1 < driven.length; i++)
    for (let k = i + 1; k < driven.length; k++) {
      const [a, b] = [driven[i]!, driven[k]!]
      const atOneVoltage = sameVoltageAt(a, b)
      if (atOneVoltage && !within(drive(a), drive(b), near.current)) {
        frames.push(pairFrame('current pair', a, b))
        break
      }
    }
  for (let i = 0; i + 1 < driven.length; i++) {
    const [a, b] = [driven[i]!, driven[i + 1]!]
    if (!sameVoltageAt(a, b) && sameBase(a, b)) frames.push(pairFrame('voltage pair', ...byVoltage(a, b)))
  }
  return frames
}

const volts = (p: Point): number | undefined => p.values.get('V_CE')?.value

function sameVoltageAt(a: Point, b: Point): boolean {
  const [va, vb] = [volts(a), volts(b)]
  return va === undefined || vb === undefined || within(va, vb, near.voltage)
}

const sameBase = (a: Point, b: Point): boolean =>
  within(a.values.get('I_B')?.value ?? 0, b.values.get('I_B')?.value ?? 0, near.base)

const byVoltage = (a: Point, b: Point): readonly [Point, Point] => (volts(a)! <= volts(b)! ? [a, b] : [b, a])

function triples(driven: readonly Point[]): Frame[] {
  if (driven.length < 3 || !driven.every((p) => p.values.has('V_F'))) return []
  const three = [driven[0]!, driven[Math.floor(driven.length / 2)]!, driven.at(-1)!]
  return [{ scope: 'triple', points: three, values: new Map(), conditions: meanConditions(three) }]
}

function pairFrame(scope: Scope, a: Point, b: Point): Frame {
  const values = new Map<string, Quantity>()
  const [ia, ib] = [a.values.get('I_C'), b.values.get('I_C')]
  if (ia !== undefined && ib !== undefined)
    values.set(
      'I_C',
      derive(runningMean.A, { mean: ia as Quantity<'A'>, next: ib as Quantity<'A'>, count: two }, 'I_C'),
    )
  return { scope, points: [a, b], values, conditions: meanConditions([a, b]) }
}

const two = exact(2, '1', 'points')

/** Conditions of several points: means of those that all of them have. */
function meanConditions(points: readonly Point[]): Conditions {
  const all: readonly Readonly<Record<string, number>>[] = points.map(conditionsOf)
  const keys = Object.keys(all[0]!).filter((k) => k !== 'I_B' && all.every((c) => c[k] !== undefined))
  return Object.fromEntries(keys.map((k) => [k, all.reduce((sum, c) => sum + c[k]!, 0) / all.length]))
}

/** Transconductance from two points holds at the logarithmic mean of their currents. */
function conditionsFor(recipe: Recipe, frame: Frame): Conditions {
  const [a, b] = frame.points.map((p) => p.values.get('I_C')?.value)
  if (recipe.symbol !== 'g_m' || a === undefined || b === undefined) return frame.conditions
  return { ...frame.conditions, I_C: (b - a) / Math.log(b / a) }
}

/** Works through the recipe table for every frame of a part. */
export function applyRecipes(c: PartContext, points: readonly Point[]): Outcome[] {
  for (const p of points) stepsOf(c, p)
  const outcomes: Outcome[] = []
  for (const frame of framesOf(points)) applyTo(c, frame, outcomes)
  return outcomes
}

/** Stepping stones of a point come first: the frames of several points are chosen by them. */
function stepsOf(c: PartContext, p: Point): void {
  const frame: Frame = { scope: 'point', points: [p], values: p.values, conditions: {} }
  for (const r of readyRecipes.point) {
    if (r.recipe.isStep === undefined || p.values.has(r.recipe.symbol)) continue
    const q = resultOf(c, frame, r)
    if (q !== undefined && q !== 'no number') p.values.set(r.recipe.symbol, q)
  }
}

function applyTo(c: PartContext, frame: Frame, outcomes: Outcome[]): void {
  const done = new Set<string>()
  for (const ready of readyRecipes[frame.scope]) {
    const { recipe } = ready
    if (done.has(recipe.symbol) || (recipe.isStep && frame.values.has(recipe.symbol))) continue
    const q = resultOf(c, frame, ready)
    if (q === undefined) continue
    done.add(recipe.symbol)
    const at = { ...frame, conditions: conditionsFor(recipe, frame) }
    if (q !== 'no number') frame.values.set(recipe.symbol, q)
    if (!recipe.isStep) outcomes.push(q === 'no number' ? { recipe, frame: at } : { recipe, frame: at, quantity: q })
  }
}

/** The recipe's result; undefined where a need is missing. */
function resultOf(c: PartContext, frame: Frame, { recipe, needs }: ReadyRecipe): Quantity | 'no number' | undefined {
  const inputs: Record<string, Quantity> = {}
  const at: Record<string, number> = {}
  for (const { name, find } of needs) {
    const q = find(c, frame)
    if (q === undefined) return undefined
    inputs[name] = q
    at[name] = q.value
  }
  const f = recipe.formula
  if (f === undefined) return inputs.value
  if (!Number.isFinite(f.evaluate(at))) return 'no number'
  const q = derive(f, inputs, recipe.symbol)
  return q.budget.every((t) => Number.isFinite(t.slope)) ? q : 'no number'
}

type Find = (c: PartContext, frame: Frame) => Quantity | undefined

/** A recipe with its needs understood. */
interface ReadyRecipe {
  readonly recipe: Recipe
  readonly needs: readonly { readonly name: string; readonly find: Find }[]
}

/** What a need of the recipe table means. */
function finding(need: string): Find {
  const [first, second] = need.split(' ') as [string, string | undefined]
  if (first === 'read') return (_, frame) => frame.points[0]!.read.get(second!)?.quantity
  if (first === 'leak') return (c, frame) => leakageAt(c, second as LeakageSymbol, frame.points[0]!)
  if (/^[123]$/.test(first)) return (_, frame) => frame.points[Number(first) - 1]?.values.get(second!)
  if (/^[a-z]+$/.test(need)) return (c, frame) => given(c, frame.points[0]!, need)
  return (_, frame) => frame.values.get(need)
}

const ready = (recipe: Recipe): ReadyRecipe => ({
  recipe,
  needs: Object.entries(recipe.needs).map(([name, need]) => ({ name, find: finding(need) })),
})

const ofScope = (scope: Scope): readonly ReadyRecipe[] => recipes.filter((r) => r.scope === scope).map(ready)

/** The recipe table by scope, ready for use. */
const readyRecipes: Readonly<Record<Scope, readonly ReadyRecipe[]>> = {
  point: ofScope('point'),
  'current pair': ofScope('current pair'),
  'voltage pair': ofScope('voltage pair'),
  triple: ofScope('triple'),
}
