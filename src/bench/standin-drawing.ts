import { FaultError } from '#core/fault'
import type { StandIn } from '#core/standin'
import { leadDrawing } from '#report/leads'
import type { StandInsFound } from './standin.ts'

/**
 * How the leads of a candidate reach the places of the old ones, as SVG.
 *
 * @throws {FaultError} `usage` where one of the two lead orders is not settled
 */
export function drawLeads({ result: { need } }: StandInsFound, { type, leads }: StandIn): string {
  const svg = leads === undefined ? undefined : leadDrawing({ wanted: need.name, offered: type, plan: leads })
  if (svg !== undefined) return svg
  throw new FaultError({
    code: 'usage',
    problem: `There is no drawing of the leads of ${type} for ${need.name}`,
    mend: leads?.says ?? 'Name a candidate of the same kind, and a type it stands in for.',
  })
}
