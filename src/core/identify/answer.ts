import type { Identity } from './identify.ts'

/** What is ruled out, gathered by the reading that does it: `By 2+ 1-: open: silicon PNP BJT; germanium PNP BJT.` */
export function ruledOutSentences(all: Identity['ruledOut']): readonly string[] {
  const reasons = [...new Set(all.map((r) => r.by))]
  return reasons.map((by) => {
    const what = all.flatMap((r) => (r.by === by ? [r.what] : []))
    return `By ${by}: ${what.join('; ')}.`
  })
}

/** Above this an answer is not told finer: of those stated 99.8 % sure, fewer were right. */
const tellsTo = 0.99
const leastTold = 0.001

/** How likely an answer is, no finer than it was found to hold, and never nothing or all: `0.4 %`, `73 %`, `> 99 %`. */
export const likelyText = (p: number): string => {
  if (p > tellsTo) return `> ${100 * tellsTo} %`
  return p < leastTold ? `< ${100 * leastTold} %` : `${(100 * p).toFixed(p < 0.01 ? 1 : 0)} %`
}

/** What a run sheet wants to know of a part without a name. */
export interface RunnableAs {
  readonly family: 'bjt' | 'diode'
  /** Left out, of a diode. */
  readonly polarity?: string
  readonly material: 'Si' | 'Ge'
}

const materials: Readonly<Record<string, RunnableAs['material']>> = { silicon: 'Si', germanium: 'Ge', Schottky: 'Si' }
const families: Readonly<Record<string, RunnableAs['family']>> = { BJT: 'bjt', diode: 'diode', 'Zener diode': 'diode' }

/** How sure an answer must be before a run is planned upon it. */
const runnableFrom = 0.9

/** As what a run sheet can be planned: a good transistor or diode of which one is sure; nothing for any other part. */
export function runnableAs({ hypotheses: [best], contradiction }: Identity): RunnableAs | undefined {
  const [family, material] = [families[best?.family ?? ''], materials[best?.technology ?? '']]
  if (best === undefined || family === undefined || material === undefined || contradiction !== undefined) return
  if (best.fault !== 'none' || best.probability < runnableFrom) return
  if (family === 'diode') return Object.keys(best.leads).length === 2 ? { family, material } : undefined
  return best.polarity === undefined ? undefined : { family, polarity: best.polarity, material }
}
