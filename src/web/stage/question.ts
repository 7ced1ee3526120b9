import { useQuery } from '@tanstack/react-query'
import { useMemo } from 'react'
import { needType, type PartType } from '#core/device'
import { FaultError } from '#core/fault'
import {
  isFilled,
  makeStage,
  type PartNumbers,
  type Parts,
  type Position,
  type PositionRead,
  placeCurrents,
  typeNumbers,
  wantedParts,
} from '#core/stage'
import { api, queryKeys, typesQuery } from '#web/live'

/** Which part is looked at: the one the position names, a published type, or a part of the book. */
export type Look =
  | { readonly by: 'position' }
  | { readonly by: 'type'; readonly type: string }
  | { readonly by: 'part'; readonly tag: string }

/** A position with its parts, ready to be computed. */
export interface Question {
  readonly position: Position
  /** Parts the position names; not all of its places need have one. */
  readonly own: Parts
  /** The same with the part that is looked at in its place. */
  readonly parts: Parts
  /** The other part, where one was asked for. */
  readonly other?: PartNumbers
  /** Current at which what is published is taken, A. */
  readonly nearA?: number
}

export interface Asked {
  readonly question?: Question
  /** What can be computed of it: the question, or the same with the part the position names. */
  readonly seen?: Question
  /** The part of the book that was named is there, but cannot be computed. */
  readonly isLeftOut: boolean
  /** Why there is none, or why it cannot be computed, as sentences. */
  readonly faults: readonly string[]
}

const none: readonly PartType[] = []

/** What is asked: the position with its parts filled in from the published types and from the book. */
export function useQuestion(read: PositionRead | undefined, look: Look): Asked {
  const types = useQuery(typesQuery).data?.types ?? none
  const own = useMemo(() => ownParts(read, types), [read, types])
  const nearA = own.ok ? own.nearA : undefined
  const tag = look.by === 'part' ? look.tag.trim() : ''
  const measured = useQuery({
    queryKey: [...queryKeys.drawer, 'stage', tag, nearA],
    queryFn: () => api.stageParts({ tag, near: nearA }),
    enabled: tag !== '' && own.ok,
  })
  const kept = measured.data
  return useMemo(() => {
    const isLeftOut = look.by === 'part' && kept?.parts.length === 0 && kept.leftOut.length > 0
    if (read === undefined || types.length === 0) return { faults: [], isLeftOut }
    if (!own.ok) return { faults: own.faults, isLeftOut }
    try {
      const other = otherPart(look, types, nearA, kept)
      if (typeof other === 'string') return { faults: other === '' ? [] : [other], isLeftOut }
      const question = questionOf(read.position, own.parts, other, nearA)
      const faults = whyNot(question)
      const seen = faults.length === 0 ? question : ownOf(question)
      return { question, faults, isLeftOut, ...(seen === undefined ? {} : { seen }) }
    } catch (error) {
      if (error instanceof FaultError) return { faults: error.message.split('\n'), isLeftOut }
      throw error
    }
  }, [read, types, own, look, nearA, kept])
}

type OwnParts =
  | { readonly ok: true; readonly parts: Parts; readonly nearA?: number }
  | { readonly ok: false; readonly faults: readonly string[] }

function ownParts(read: PositionRead | undefined, types: readonly PartType[]): OwnParts {
  if (read === undefined || types.length === 0) return { ok: false, faults: [] }
  try {
    const parts = wantedParts(read, (name) => needType(types, name).partType)
    const { position } = read
    const nearA = isFilled(position, parts) ? placeCurrents(position, parts)[position.place] : undefined
    return { ok: true, parts, ...(nearA === undefined ? {} : { nearA }) }
  } catch (error) {
    if (error instanceof FaultError) return { ok: false, faults: error.message.split('\n') }
    throw error
  }
}

/** The part asked for; nothing where it is that of the position; a text where it is not to be had (yet). */
function otherPart(
  look: Look,
  types: readonly PartType[],
  nearA: number | undefined,
  kept: { readonly parts: readonly PartNumbers[]; readonly leftOut: readonly { readonly why: string }[] } | undefined,
): PartNumbers | string | undefined {
  if (look.by === 'position') return undefined
  if (look.by === 'type')
    return look.type.trim() === '' ? 'Name a part type.' : typeNumbers(needType(types, look.type).partType, nearA)
  if (look.tag.trim() === '') return 'Name a part of the drawer by its tag.'
  if (kept === undefined) return ''
  const [part] = kept.parts
  if (part !== undefined) return part
  const [left] = kept.leftOut
  return left === undefined
    ? `There is no part in the book called "${look.tag}".`
    : `${look.tag} cannot be looked at: ${left.why}.`
}

/** Why the parts cannot stand in the position: one is missing, or of another kind. */
function whyNot({ position, parts }: Question): readonly string[] {
  try {
    makeStage(position, parts)
    return []
  } catch (error) {
    if (error instanceof FaultError) return error.message.split('\n')
    throw error
  }
}

/** The question with the part the position names, where that can stand there. */
function ownOf({ position, own, nearA }: Question): Question | undefined {
  const seen = { position, own, parts: own, ...(nearA === undefined ? {} : { nearA }) }
  return whyNot(seen).length === 0 ? seen : undefined
}

function questionOf(
  position: Position,
  own: Parts,
  other: PartNumbers | undefined,
  nearA: number | undefined,
): Question {
  return {
    position,
    own,
    parts: other === undefined ? own : { ...own, [position.place]: other },
    ...(other === undefined ? {} : { other }),
    ...(nearA === undefined ? {} : { nearA }),
  }
}
