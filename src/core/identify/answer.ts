import type { Identity } from './identify.ts'

/** What is ruled out, gathered by the reading that does it: `By 2+ 1-: open: silicon PNP BJT; germanium PNP BJT.` */
export function ruledOutSentences(all: Identity['ruledOut']): readonly string[] {
  const reasons = [...new Set(all.map((r) => r.by))]
  return reasons.map((by) => {
    const what = all.flatMap((r) => (r.by === by ? [r.what] : []))
    return `By ${by}: ${what.join('; ')}.`
  })
}

/** What a run sheet wants to know of a part without a name. */
export interface RunnableAs {
  readonly polarity: string
  readonly material: 'Si' | 'Ge'
}

const materials: Readonly<Record<string, RunnableAs['material']>> = { silicon: 'Si', germanium: 'Ge' }

/** As what a run sheet can be planned: a good transistor, and nothing left to ask; nothing for any other part. */
export function runnableAs({ hypotheses: [best], contradiction, next }: Identity): RunnableAs | undefined {
  const material = materials[best?.technology ?? '']
  if (best?.family !== 'BJT' || best.fault !== 'none' || best.polarity === undefined || material === undefined) return
  return contradiction === undefined && next === undefined ? { polarity: best.polarity, material } : undefined
}
