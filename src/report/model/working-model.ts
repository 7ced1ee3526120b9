import { explain, FaultError } from '#core/fault'
import { type Quantity, standardUncertainty } from '#core/quantity'
import { allFormulas } from '#core/reduce'
import { coverage, sourceText, type Working, working } from '#core/uncertainty'
import { figureText, measuredFigure, plainFigure } from '#report/typeset'
import { budgetModel } from './budget-model.ts'
import type { WorkingModel, WorkingStep } from './model.ts'

/** A number whose working is wanted, and the id it has on the page. */
export interface Wanted {
  readonly id: string
  readonly symbol: string
  readonly quantity: Quantity
}

/** Workings of all numbers of one part. */
export interface PartWorkings {
  /** By the id of the number. */
  readonly own: ReadonlyMap<string, WorkingModel>
  /** Steps that several numbers need, worked once. */
  readonly shared: readonly WorkingStep[]
}

/** A node of a derivation, and the symbol under which its user knows it. */
interface Used {
  readonly symbol: string
  readonly working: Working
}

/** Where a step that is worked once is to be found. */
interface Place {
  readonly id: string
  /** Symbol of the number it is worked under; left out for the part's shared steps. */
  readonly under?: string
}

/**
 * The workings of a part's numbers: for each its formulas down to what was read, and where its doubt comes from. A step
 * that several numbers need is worked once and referred to.
 *
 * @param sharedId beginning of the ids of shared steps
 */
export function partWorkings(wanted: readonly Wanted[], sharedId: string): PartWorkings {
  const own = new Map<string, WorkingModel>()
  const tops = new Map<string, Used>()
  for (const w of wanted) {
    const made = workingOrReason(w.quantity)
    if (typeof made === 'string') own.set(w.id, { steps: [], coverage: made })
    else tops.set(w.id, { symbol: w.symbol, working: made })
  }
  const { places, nodes } = sharedSteps(tops, sharedId)
  for (const w of wanted) {
    const top = tops.get(w.id)
    if (top === undefined) continue
    const budget = budgetModel(top.working, w.symbol)
    const coverage = coverageText(w.quantity)
    own.set(w.id, { steps: stepsOf(top, places), ...(budget === undefined ? {} : { budget }), coverage })
  }
  return { own, shared: sharedOf(nodes, places) }
}

/** The working; or a sentence why there is none, where a formula is not known here. */
function workingOrReason(q: Quantity): Working | string {
  try {
    return working(q, allFormulas)
  } catch (e) {
    if (e instanceof FaultError) return e.faults.map(explain).join(' ')
    throw e
  }
}

/** The same number, however it was reached. */
const keyOf = (w: Working): string => JSON.stringify([w.formula?.id, w.what, w.unit, w.value, w.standardUncertainty])

interface Shared {
  readonly places: ReadonlyMap<string, Place>
  /** Nodes worked once for the part, in the order in which they are met. */
  readonly nodes: readonly (Used & { readonly id: string })[]
}

/** Finds what is worked once: the numbers themselves, and every derived step that two of them need. */
function sharedSteps(tops: ReadonlyMap<string, Used>, sharedId: string): Shared {
  const places = new Map<string, Place>()
  for (const [id, top] of tops) {
    const key = keyOf(top.working)
    if (top.working.formula !== undefined && !places.has(key)) places.set(key, { id, under: top.symbol })
  }
  const uses = new Map<string, { node: Used; by: Set<string> }>()
  for (const [id, top] of tops)
    for (const node of below(top)) {
      const use = uses.get(keyOf(node.working)) ?? { node, by: new Set() }
      use.by.add(id)
      uses.set(keyOf(node.working), use)
    }
  const nodes: (Used & { readonly id: string })[] = []
  for (const [key, { node, by }] of uses) {
    if (by.size < 2 || places.has(key)) continue
    const id = `${sharedId}${nodes.length + 1}`
    places.set(key, { id })
    nodes.push({ ...node, id })
  }
  return { places, nodes }
}

/** Derived nodes below a number, nearest first, each once. */
function below(top: Used): readonly Used[] {
  const seen = new Set<string>()
  const found: Used[] = []
  const queue: Used[] = [...top.working.inputs]
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    const key = keyOf(node.working)
    if (node.working.formula === undefined || seen.has(key)) continue
    seen.add(key)
    found.push(node)
    queue.push(...node.working.inputs)
  }
  return found
}

/** Result first, then its inputs; a step worked elsewhere is referred to and not followed. */
function stepsOf(top: Used, places: ReadonlyMap<string, Place>, seen = new Set<string>()): readonly WorkingStep[] {
  const steps: WorkingStep[] = [stepOf(top)]
  const queue: Used[] = [...top.working.inputs]
  for (let node = queue.shift(); node !== undefined; node = queue.shift()) {
    const key = JSON.stringify([node.symbol, keyOf(node.working)])
    if (seen.has(key)) continue
    seen.add(key)
    const place = node.working.formula === undefined ? undefined : places.get(keyOf(node.working))
    if (place === undefined) {
      steps.push(stepOf(node))
      queue.push(...node.working.inputs)
    } else steps.push({ ...resultOf(node), worked: place })
  }
  return steps
}

/** Shared steps with what they rest on; what one of them needs already is not told again. */
function sharedOf(nodes: Shared['nodes'], places: ReadonlyMap<string, Place>): readonly WorkingStep[] {
  const seen = new Set<string>()
  return nodes.flatMap(({ id, ...node }) => {
    const [first, ...rest] = stepsOf(node, places, seen)
    return [{ ...first!, id }, ...rest.filter((s) => s.worked === undefined)]
  })
}

const resultOf = ({ symbol, working: w }: Used): WorkingStep => ({
  symbol,
  what: w.what,
  result: measuredFigure(w.value, (w.interval95[1] - w.interval95[0]) / 2, w.unit),
})

function stepOf(node: Used): WorkingStep {
  const { formula, known } = node.working
  if (formula === undefined) return { ...resultOf(node), known: known ?? '' }
  const putIn = formula.putIn.slice(formula.putIn.indexOf(' = ') + 3)
  return { ...resultOf(node), formula: formula.text, putIn, source: sourceText(formula.source) }
}

/** What stands behind the plus-minus sign, in everyday words. */
function coverageText(q: Quantity): string {
  const u = standardUncertainty(q)
  if (!(u > 0)) return 'Taken as exact.'
  const { factor, dof } = coverage(q)
  const few = Number.isFinite(dof) && dof < 100
  const because = few ? `, because few readings stand behind it (${dof.toFixed(0)} degrees of freedom)` : ''
  return `Standard uncertainty ${figureText(plainFigure(u, q.unit, 2))}; \u00b1 is ${factor.toFixed(2)} times that, to cover 95 %${because}.`
}
