import {
  type PartNumbers,
  type Parts,
  type Position,
  type ResistorChange,
  reBias,
  reBiasDefaults,
  type StageVerdict,
  stageVerdict,
} from '#core/stage'
import { type Check, valueText } from './known.ts'

/** How a candidate does in the stage of a position. */
export interface Play {
  /** With nothing changed. */
  readonly verdict: StageVerdict
  /** The least change of resistors that brings the stage back, where it does not work as it is or the material differs. */
  readonly changes?: readonly ResistorChange[]
  /** With those changes made. */
  readonly changed?: StageVerdict
}

/**
 * Plays a part in a stage, and looks for the least change of resistors where it does not work as it is, or where its
 * material is not that of the part the stage was made for.
 *
 * @param parts with the part the stage was made for in its place
 */
export function playPart(position: Position, parts: Parts, other: PartNumbers): Play {
  const { place } = position
  const verdict = stageVerdict(position, { ...parts, [place]: other })
  const first = parts[place]
  const isAtHome = first === undefined || first.material === other.material
  if ((verdict.word === 'works' && isAtHome) || position.template.rooms.length === 0 || first === undefined)
    return { verdict }
  const changes = reBias(position, parts, other)?.changes
  if (changes === undefined || changes.length === 0) return { verdict, ...(changes === undefined ? {} : { changes }) }
  const ohm = { ...position.ohm, ...Object.fromEntries(changes.map((c) => [c.ref, c.toOhm])) }
  return { verdict, changes, changed: stageVerdict({ ...position, ohm }, { ...parts, [place]: other }) }
}

/** What is offered over what is needed of the tightest limit of a stage; nothing where all of it is spare. */
const ratioOf = ({ margin }: StageVerdict): number | undefined => (margin >= 1 ? undefined : 1 / (1 - margin))

/** A play as a check: it refuses where the part does not work in the stage and no change of resistors mends it. */
export function playCheck({ verdict, changes, changed }: Play): Check {
  const best = verdict.word === 'will not' && changed !== undefined ? changed : verdict
  const word =
    best.word === 'will not' ? 'short' : changed === undefined && verdict.word === 'works' ? 'enough' : 'care'
  const ratio = ratioOf(best)
  const says = [`In the stage as it is it ${doing(verdict)}`, reBiasText(verdict, changes, changed)].filter(
    (s) => s !== '',
  )
  return { what: 'stage', word, says: says.join(' '), ...(ratio === undefined ? {} : { ratio }) }
}

const doing = ({ word, why }: StageVerdict): string =>
  `${{ works: 'works', 'works but drifts': 'works but drifts', 'will not': 'will not work' }[word]}. ${why}`

function reBiasText({ word }: StageVerdict, changes: Play['changes'], changed: StageVerdict | undefined): string {
  if (changes === undefined || changes.length === 0 || changed === undefined) return ''
  if (changed.word === 'will not') return 'No change of resistors makes it work.'
  const list = changes.map((c) => `${c.ref} from ${valueText(c.fromOhm, 'ohm')} to ${valueText(c.toOhm, 'ohm')}`)
  const change = `${list.join(' and ')} (${reBiasDefaults.series})`
  return word === 'works'
    ? `To bring its current back to what it was, change ${change}.`
    : `Change ${change}, and it ${changed.word}.`
}
