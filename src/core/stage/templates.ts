import { FaultError } from '#core/fault'
import { nearNames } from '#core/text'
import { pairTemplates } from './pair-templates.ts'
import { singleTemplates } from './single-templates.ts'
import { switchTemplates } from './switch-templates.ts'
import type { Template } from './template.ts'

/** Every template, simplest first. Topologies are `common practice`; the values are examples, not any maker's. */
export const templates: readonly Template[] = [...singleTemplates, ...pairTemplates, ...switchTemplates]

/**
 * A template by its id.
 *
 * @throws {FaultError} `not-found` with near ids
 * @example templateNamed('divider').title // 'four-resistor divider'
 */
export function templateNamed(id: string): Template {
  const found = templates.find((t) => t.id === id)
  if (found !== undefined) return found
  const ids = templates.map((t) => t.id)
  const mend = `There are ${ids.join(', ')}.`
  throw new FaultError({ code: 'not-found', what: 'template of a stage', name: id, near: nearNames(id, ids), mend })
}
