import type { PartType } from '#core/device'
import type { Parts } from './position.ts'
import { isFilled } from './position.ts'
import type { PositionRead } from './position-pieces.ts'
import { placeCurrents } from './rest.ts'
import { typeNumbers } from './type-numbers.ts'

/**
 * Numbers of all parts a position names. A published gain is taken at the current nearest to that of its place, which is
 * found with the gain at 1 mA first.
 *
 * @param typeNamed gives the published record of a type, or throws where it is not known
 */
export function wantedParts({ position, wanted }: PositionRead, typeNamed: (name: string) => PartType): Parts {
  const at = (currents: Readonly<Record<string, number>>): Parts =>
    Object.fromEntries(
      Object.entries(wanted).map(([ref, w]) => [
        ref,
        'type' in w ? typeNumbers(typeNamed(w.type), currents[ref]) : w.numbers,
      ]),
    )
  const first = at({})
  return isFilled(position, first) ? at(placeCurrents(position, first)) : first
}
