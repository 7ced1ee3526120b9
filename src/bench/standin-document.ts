import type { ResistorChange } from '#core/stage'
import { askedFor, type Check, type StandIn } from '#core/standin'
import { positionHead, verdictOfStage } from './stage.ts'
import type { StandInsFound } from './standin.ts'

/** What `germane standin --json` prints, and the page asks for. Documented in docs/reference/json.md. */
export type StandInsDocument = ReturnType<typeof standInsDocument>

export function standInsDocument({ result, position }: StandInsFound) {
  const { need, taken, notKnown, refused, nearest } = result
  return {
    format: 'germane/stand-ins/1' as const,
    for: need.name,
    ...(position === undefined ? {} : { position: positionHead(position) }),
    ...(need.own === undefined ? {} : { own: verdictOfStage(need.own) }),
    hottest: need.hottestC,
    asked: askedFor(need),
    not_asked: need.notAsked,
    candidates: taken.map(candidateEntry),
    not_known: notKnown.map(candidateEntry),
    refused: refused.map(({ name, type, refusedBy }) => ({
      name,
      type,
      what: refusedBy!.what,
      ...(refusedBy!.ratio === undefined ? {} : { ratio: refusedBy!.ratio }),
      says: refusedBy!.says,
    })),
    ...(nearest === undefined ? {} : { nearest }),
  }
}

function candidateEntry({ name, type, isPart, standing, checks, worst, leads, play, availability, inDrawer }: StandIn) {
  return {
    name,
    type,
    part: isPart,
    standing,
    ...(worst === undefined ? {} : { worst: { what: worst.what, ratio: worst.ratio! } }),
    checks: checks.map(checkEntry),
    ...(leads === undefined
      ? {}
      : {
          leads: {
            work: leads.work,
            says: leads.says,
            ...(leads.crossed === undefined ? {} : { crossed: leads.crossed }),
          },
        }),
    ...(play === undefined
      ? {}
      : {
          stage: {
            verdict: verdictOfStage(play.verdict),
            ...(play.changes === undefined ? {} : { changes: play.changes.map(changeEntry) }),
            ...(play.changed === undefined ? {} : { changed: verdictOfStage(play.changed) }),
          },
        }),
    ...(availability === undefined ? {} : { availability }),
    ...(inDrawer === undefined ? {} : { in_drawer: inDrawer }),
  }
}

const changeEntry = ({ ref, fromOhm, toOhm }: ResistorChange) => ({ ref, from: fromOhm, to: toOhm })

const checkEntry = ({ what, symbol, unit, needed, offered, ratio, word, says }: Check) => ({
  what,
  ...(symbol === undefined ? {} : { symbol }),
  ...(unit === undefined ? {} : { unit }),
  ...(needed === undefined ? {} : { needed }),
  ...(offered === undefined ? {} : { offered }),
  ...(ratio === undefined ? {} : { ratio }),
  word,
  says,
})
