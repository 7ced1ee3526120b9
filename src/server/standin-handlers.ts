import type { StandInsAnswer, StandInUse } from '#api'
import {
  availabilityMarks,
  markAvailability,
  positionFromText,
  type StandInsFound,
  standInsAt,
  standInsForType,
} from '#bench'
import { askedFor, type StandIn } from '#core/standin'
import { byWindow, type Handlers, type Sent } from './handler.ts'

/** Parts of the drawer looked at one by one, at most, so that the answer comes at once. */
const mostParts = 500

export const standInHandlers: Handlers<'standIns' | 'standInsAt' | 'markType'> = {
  standIns: async ({ bench }, { params, query }) => {
    const found = await standInsForType(bench(), params.type, { ...used(query), mostParts })
    const mark = (await availabilityMarks(bench()))[found.result.need.name]
    return { ...answerOf(found), ...(mark === undefined ? {} : { availability: mark }) }
  },

  standInsAt: async ({ bench }, { body: { position, type, ...use }, signal }) => {
    const wish = { ...used(use), mostParts, signal }
    return answerOf(await standInsAt(bench(), positionFromText(position, 'position'), wish, type))
  },

  markType: async ({ bench, events }, { params, body: { availability }, window }) => {
    const { type, edit } = await markAvailability(bench(), params.type, availability)
    events.tell({ kind: 'types', ...byWindow(window) })
    if (edit !== undefined) events.tell({ kind: 'edits', ...byWindow(window) })
    return {
      type,
      ...(availability === undefined ? {} : { availability }),
      ...(edit === undefined ? {} : { edit }),
    }
  },
}

/** Keys that were given. */
const used = (use: StandInUse) =>
  Object.fromEntries(Object.entries(use).filter(([, v]) => v !== undefined)) as { [K in keyof StandInUse]?: number }

function answerOf({ result, notLookedAt }: StandInsFound): Sent<StandInsAnswer> {
  const { need, taken, notKnown, refused, nearest } = result
  return {
    for: need.name,
    ...(need.own === undefined ? {} : { own: need.own }),
    hottestC: need.hottestC,
    asked: askedFor(need),
    notAsked: need.notAsked,
    taken,
    notKnown: notKnown.map((s) => inShort(s, s.checks.find((c) => c.word === 'unknown')!)),
    refused: refused.flatMap((s) => (s.refusedBy?.what === 'kind' ? [] : [inShort(s, s.refusedBy!)])),
    ...(nearest === undefined ? {} : { nearest }),
    ...(notLookedAt === undefined ? {} : { notLookedAt }),
  }
}

const inShort = ({ name, type }: StandIn, { what, says }: { readonly what: string; readonly says: string }) => ({
  name,
  type,
  what,
  says,
})
