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
  /** It drifts, as the part the stage was made for does. */
  readonly isAsBefore?: true
  /** With nothing changed. */
  readonly verdict: StageVerdict
  /** The least change of resistors that brings the stage back, where it does not work as it is or the material differs. */
  readonly changes?: readonly ResistorChange[]
  /** With those changes made. */
  readonly changed?: StageVerdict
  /** No change of resistors brings the stage back. */
  readonly isBeyond?: true
}

/**
 * Plays a part in a stage, and looks for the least change of resistors where it does worse than the part the stage was
 * made for, or is of another material.
 *
 * @param parts with the part the stage was made for in its place
 * @param own how that one does
 */
export function playPart(position: Position, parts: Parts, other: PartNumbers, own: StageVerdict): Play {
  const { place } = position
  const verdict = stageVerdict(position, { ...parts, [place]: other })
  const first = parts[place]
  const isAtHome = first === undefined || first.material === other.material
  if ((verdict.word === 'works' && isAtHome) || position.template.rooms.length === 0 || first === undefined)
    return { verdict }
  if (isAtHome && verdict.word === 'works but drifts' && own.word === verdict.word) return { verdict, isAsBefore: true }
  const changes = reBias(position, parts, other, { hasNearest: false })?.changes
  if (changes === undefined) return { verdict, isBeyond: true }
  if (changes.length === 0) return { verdict, changes }
  const ohm = { ...position.ohm, ...Object.fromEntries(changes.map((c) => [c.ref, c.toOhm])) }
  return { verdict, changes, changed: stageVerdict({ ...position, ohm }, { ...parts, [place]: other }) }
}

/** What is offered over what is needed of the tightest limit of a stage; nothing where all of it is spare. */
const ratioOf = ({ margin }: StageVerdict): number | undefined => (margin >= 1 ? undefined : 1 / (1 - margin))

/** A play as a check: it refuses where the part does not work in the stage and no change of resistors mends it. */
export function playCheck(play: Play): Check {
  const { verdict, changed } = play
  const best = verdict.word === 'will not' && changed !== undefined ? changed : verdict
  const word =
    best.word === 'will not' ? 'short' : changed === undefined && verdict.word === 'works' ? 'enough' : 'care'
  const ratio = ratioOf(best)
  const says = [`In the stage as it is it ${doing(verdict)}`, mendText(play)].filter((s) => s !== '')
  return { what: 'stage', word, says: says.join(' '), ...(ratio === undefined ? {} : { ratio }) }
}

const doing = ({ word, why }: StageVerdict): string => `${word === 'will not' ? 'will not work' : word}. ${why}`

/** What a change of resistors does about it. */
function mendText({ verdict: { word }, changes = [], changed, isBeyond, isAsBefore }: Play): string {
  if (isAsBefore === true) return 'The part the stage was made for drifts as well.'
  const isLost = word !== 'works' && (isBeyond === true || changed?.word === 'will not')
  if (isLost) return 'No change of resistors brings the stage back.'
  if (changed === undefined || changed.word === 'will not') return ''
  const list = changes.map((c) => `${c.ref} from ${valueText(c.fromOhm, 'ohm')} to ${valueText(c.toOhm, 'ohm')}`)
  const change = `${list.join(' and ')} (${reBiasDefaults.series})`
  return word === 'works'
    ? `To bring its current back to what it was, change ${change}.`
    : `Change ${change}, and it ${changed.word}.`
}
