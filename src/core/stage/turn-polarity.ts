import type { PartNumbers } from './part-numbers.ts'
import type { Position } from './position.ts'
import { polarityAt } from './stage-circuit.ts'

/**
 * A position turned to the other polarity, for a part of it: supply, transistors and diodes all turn, and every voltage
 * changes its sign. The same resistors then do the same.
 */
export const turned = (p: Position): Position => ({ ...p, polarity: p.polarity === 'NPN' ? 'PNP' : 'NPN' })

/** Whether a part is of the other polarity than its place. */
export function isTurned(p: Position, part: PartNumbers): boolean {
  const place = p.template.places.find((x) => x.ref === p.place)
  return part.kind === 'bipolar' && place?.kind === 'Q' && part.polarity !== polarityAt(p, place)
}

/** A part as it stands in its place once the stage is turned round for it; as it is where nothing need be turned. */
export function standingAs(p: Position, part: PartNumbers): PartNumbers {
  const place = p.template.places.find((x) => x.ref === p.place)
  return part.kind === 'bipolar' && place !== undefined && isTurned(p, part)
    ? { ...part, polarity: polarityAt(p, place) }
    : part
}

/** What a change of polarity asks for. Advice alone: nothing of it is worked out. `common practice` */
export function polarityAdvice(p: Position, part: PartNumbers): readonly string[] {
  if (!isTurned(p, part)) return []
  const earth = p.polarity === 'NPN' ? 'positive' : 'negative'
  return [
    `${part.name} is of the other polarity: it can stand there only if its supply is turned, which makes the common line of this stage ${earth}.`,
    'Turn every electrolytic capacitor, every diode and the battery of the stage round with it.',
    'The other stages on the same supply must be turned as well, or the stage needs a supply of its own and capacitors at its input and output that stand the difference.',
    'A case that is joined to the collector, or an earthed chassis, may then touch the wrong line: look before you switch on.',
  ]
}
