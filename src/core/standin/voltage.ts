import { collectorBaseLimitV, collectorLimitV, emitterLimitV, type PartType, reverseLimitV } from '#core/device'
import { exactlyKnown, type Known } from './known.ts'

/** Names of the ratings of V_CE that stand for a base that is held, or hangs free. */
const collectorRatings = ['V_CEO', 'V_CER', 'V_PT'] as const

/** The lowest published collector-emitter rating, V; nothing where only V_CES or V_CBO are published. */
function publishedCollector({ ratings }: PartType): Known | undefined {
  const there = collectorRatings.filter((name) => ratings[name] !== undefined)
  const least = there.reduce<(typeof there)[number] | undefined>(
    (a, b) => (a === undefined || ratings[b]! < ratings[a]! ? b : a),
    undefined,
  )
  return least === undefined ? undefined : exactlyKnown(ratings[least]!, `published ${least}`)
}

/**
 * What the collector-emitter voltage of a type may be: published, or no less than what is worked out from V_CBO and the
 * gain, and no more than V_CBO.
 */
export function collectorVoltage(type: PartType): Known | undefined {
  const published = publishedCollector(type)
  if (published !== undefined) return published
  const [open, high] = [collectorLimitV(type), collectorBaseLimitV(type)]
  if (open === undefined && high === undefined) return undefined
  return {
    ...(open === undefined ? {} : { low: open.value }),
    ...(high === undefined ? {} : { high: high.value }),
    how: 'V_CEO is not published: between what V_CBO and the gain give for an open base, and V_CBO',
  }
}

/**
 * The same in a stage, where the base never hangs free: what is published of it, else V_CES or V_CBO.
 *
 * @see stageRatings, which counts so as well
 */
export function stageVoltage(type: PartType): Known | undefined {
  const published = publishedCollector(type)
  if (published !== undefined) return published
  const { V_CES, V_CBO } = type.ratings
  const far = V_CES ?? V_CBO
  const name = V_CES === undefined ? 'V_CBO' : 'V_CES'
  return far === undefined ? undefined : exactlyKnown(far, `published ${name}, as the base does not hang free`)
}

/** The collector-emitter voltage a type must be replaced with: a published one alone. */
export const demandedCollector = (type: PartType): Known | undefined => publishedCollector(type)

/** V_CBO; where it is not published no less than the collector-emitter rating, which never passes it. */
export function collectorBaseVoltage(type: PartType): Known | undefined {
  const bound = collectorBaseLimitV(type)
  if (bound === undefined) return undefined
  return type.ratings.V_CBO === undefined ? { low: bound.value, how: bound.how } : exactlyKnown(bound.value, bound.how)
}

export function emitterVoltage(type: PartType): Known | undefined {
  const bound = emitterLimitV(type)
  return bound === undefined ? undefined : exactlyKnown(bound.value, bound.how)
}

/** Reverse voltage of a diode. */
export function reverseVoltage(type: PartType): Known | undefined {
  const bound = reverseLimitV(type)
  return bound === undefined ? undefined : exactlyKnown(bound.value, bound.how)
}
