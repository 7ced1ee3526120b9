import { house } from './house-number.ts'
import { jedec } from './jedec.ts'
import { jis } from './jis.ts'
import type { NumberScheme, TypeNumberReading } from './number-scheme.ts'
import { oldEuropean } from './old-european.ts'
import { proElectron } from './pro-electron.ts'
import { soviet } from './soviet.ts'
import { plainTypeName } from './type-name.ts'

/** Every scheme of type numbers that is understood. */
export const numberSchemes: readonly NumberScheme[] = [jedec, proElectron, oldEuropean, soviet, house, jis]

/**
 * Explains a type number by the schemes it fits: what it tells of material, polarity and use, and what it does not.
 *
 * @returns readings, the sure ones first; none where no scheme fits
 * @example explainTypeNumber('AC128')[0]?.material // 'Ge'
 */
export function explainTypeNumber(text: string): readonly TypeNumberReading[] {
  const plain = plainTypeName(text)
  const readings = numberSchemes.flatMap(({ id, name, source, read }) => {
    const reading = read(plain)
    return reading === undefined ? [] : [{ scheme: id, name, source, ...reading }]
  })
  return [...readings.filter((r) => r.sure), ...readings.filter((r) => !r.sure)]
}
