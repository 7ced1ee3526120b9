import { stringify } from 'yaml'
import type { PartType } from '#core/device'

/**
 * A part type as the text a person edits: YAML, values in SI units. Reading it again gives the same record.
 *
 * @example typeText(record) // 'type: GX-17\nfamily: bjt\n...'
 */
export const typeText = (type: PartType): string => stringify(type, { lineWidth: 100 })
