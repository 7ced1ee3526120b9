import { heatDefaults } from '#core/physics'
import type { PartNumbers } from './part-numbers.ts'
import type { Position } from './position.ts'

/**
 * A part as it stands in its position: on a heat sink its heat goes through the case and the sink to the air.
 *
 * Where its resistance to the case is not known, a share of that to the air is taken, and noted (common practice).
 */
export function onHeatSink({ heatSinkKPerW }: Position, part: PartNumbers): PartNumbers {
  if (heatSinkKPerW === undefined) return part
  const { rthKPerW, rthCaseKPerW } = part.ratings
  const taken = rthKPerW === undefined ? undefined : rthKPerW * heatDefaults.fastShare
  const toCase = rthCaseKPerW ?? taken
  if (toCase === undefined)
    return noted(part, 'Nothing is known of its heat: the heat sink does nothing here, and it does not warm itself.')
  const onSink = { ...part, ratings: { ...part.ratings, rthKPerW: toCase + heatSinkKPerW } }
  if (rthCaseKPerW !== undefined) return onSink
  return noted(onSink, `From its junction to its case ${Number(toCase.toPrecision(3))} K/W is taken (common practice).`)
}

const noted = (part: PartNumbers, note: string): PartNumbers => ({ ...part, notes: [...part.notes, note] })
