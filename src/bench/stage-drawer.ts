import { FaultError } from '#core/fault'
import {
  type PartNumbers,
  type Position,
  type PositionRead,
  polarityAdvice,
  type Ranking,
  type ReBias,
  type ReBiasOptions,
  type ResistorChange,
  type Rest,
  rankParts,
  reBias,
  type StageVerdict,
  stageVerdict,
  standingAs,
} from '#core/stage'
import { type Bench, noParts } from './bench.ts'
import { chosenPart, currentAt, partsOfFile, positionHead, type StageWish, verdictOfStage } from './stage.ts'
import { partsForStages } from './stage-parts.ts'

/**
 * Tries every part of the book in a position. Parts that are bad, used or gone, or of no known type, or never measured,
 * are left out and named.
 *
 * @throws {FaultError} where there is no part to try
 */
export async function rankStage(
  bench: Bench,
  read: PositionRead,
  filter: { readonly lot?: string; readonly type?: string } = {},
): Promise<Ranking> {
  const own = partsOfFile(bench, read)
  const nearA = currentAt(read, own)
  const drawer = await partsForStages(bench, { ...filter, ...(nearA === undefined ? {} : { nearA }) })
  if (drawer.of === 0) throw noParts(filter)
  const ranking = rankParts(read.position, own, drawer.parts)
  return { ranked: ranking.ranked, leftOut: [...drawer.leftOut, ...ranking.leftOut] }
}

/** What `germane stage --rank --json` prints. Documented in docs/reference/json.md. */
export const stageRankingDocument = (position: Position, { ranked, leftOut }: Ranking) => ({
  format: 'germane/stage-ranking/1' as const,
  ...positionHead(position),
  ranked: ranked.map(({ part, verdict, point }) => ({
    part: part.name,
    verdict: verdictOfStage(verdict),
    ...(point === undefined ? {} : { ic: point.ic, vce: point.vce }),
  })),
  left_out: leftOut,
})

/** A stage given to another part. */
export interface StageReBias {
  readonly position: Position
  /** Part the stage was made for, and the one that is to stand there. */
  readonly first: PartNumbers
  readonly other: PartNumbers
  readonly result: ReBias
  /** With the changes made. */
  readonly verdict?: StageVerdict
  /** What a change of polarity asks for besides. */
  readonly advice: readonly string[]
}

/**
 * Finds the least change of resistors with which another part stands in a position. A part of the other polarity is
 * computed in the stage turned round, which does the same, with advice on what turning asks for.
 *
 * @throws {FaultError} where no other part was named, or the position does not work with its own
 */
export async function reBiasStage(
  bench: Bench,
  read: PositionRead,
  wish: StageWish,
  options: Partial<ReBiasOptions> = {},
): Promise<StageReBias> {
  const { position } = read
  if (position.template.rooms.length === 0)
    throw new FaultError({
      code: 'usage',
      problem: `A ${position.template.title} has no standing current to restore`,
      mend: 'Look at it with the other part: --type or --part without --re-bias.',
    })
  if (!position.template.settles.some((ref) => position.ohm[ref] !== undefined))
    throw new FaultError({
      code: 'usage',
      problem: 'No resistor of this position may be changed',
      mend: 'Name those that may under rebias: [R1, RE].',
    })
  const parts = partsOfFile(bench, read)
  const first = parts[position.place]
  const other = await chosenPart(bench, read, wish, currentAt(read, parts))
  if (first === undefined || other === undefined)
    throw new FaultError({
      code: 'usage',
      problem: 'Two parts are needed: the one the stage was made for, and the one that is to stand there',
      mend: 'Name the first under parts in the file, the other with --type or --part.',
    })
  const standing = standingAs(position, other)
  const result = reBias(position, parts, standing, options)
  if (result === undefined)
    throw new FaultError({
      code: 'usage',
      problem: `${first.name} itself has no operating point in this position`,
      mend: 'Check the values of the position first.',
    })
  const { changes } = result
  const ohm = { ...position.ohm, ...Object.fromEntries((changes ?? []).map((c) => [c.ref, c.toOhm])) }
  const after = { ...position, ohm }
  return {
    position,
    first,
    other,
    result,
    advice: polarityAdvice(position, other),
    ...(changes === undefined ? {} : { verdict: stageVerdict(after, { ...parts, [position.place]: standing }) }),
  }
}

const restEntry = ({ ic, vce, drift, rooms }: Rest) => ({ ic, vce, drift, rooms })
const changeEntries = (changes: readonly ResistorChange[]) =>
  changes.map(({ ref, fromOhm, toOhm }) => ({ ref, from: fromOhm, to: toOhm }))

/** What `germane stage --re-bias --json` prints. Documented in docs/reference/json.md. */
export const reBiasDocument = ({ position, first, other, result, verdict, advice }: StageReBias) => ({
  format: 'germane/re-bias/1' as const,
  ...positionHead(position),
  first: first.name,
  part: other.name,
  restored: result.changes !== undefined,
  before: restEntry(result.before),
  ...(result.unchanged === undefined ? {} : { unchanged: restEntry(result.unchanged) }),
  ...(result.changes === undefined ? {} : { changes: changeEntries(result.changes) }),
  ...(result.after === undefined ? {} : { after: restEntry(result.after) }),
  ...(result.nearest === undefined
    ? {}
    : { nearest: { changes: changeEntries(result.nearest.changes), after: restEntry(result.nearest.after) } }),
  ...(verdict === undefined ? {} : { verdict: verdictOfStage(verdict) }),
  advice,
})
