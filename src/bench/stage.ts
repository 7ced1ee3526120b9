import { newestParameters, results } from '#book'
import { FaultError } from '#core/fault'
import { readCircuitOf } from '#core/job'
import type { PartResult } from '#core/reduce'
import {
  couplingOf,
  isFilled,
  measuredNumbers,
  type PartNumbers,
  type Parts,
  type Position,
  type PositionRead,
  placeCurrents,
  type StageAnswer,
  type StageVerdict,
  stageAnswer,
  stageSymbols,
  stageVerdict,
  typeNumbers,
  type WantedPart,
  wantedParts,
} from '#core/stage'
import { nearNames } from '#core/text'
import { type Bench, bookOf, typeNamed } from './bench.ts'

/** Which part to look at in the place, where it is not the one of the file. */
export interface StageWish {
  /** Tag of a part of the book. */
  readonly part?: string
  readonly type?: string
  readonly count?: number
  readonly seed?: number
}

/** A position with a part in it, and what the part it was made for does there. */
export interface StageSeen {
  readonly answer: StageAnswer
  /** Of the part the file names, where another was asked for. */
  readonly published?: { readonly part: string; readonly verdict: StageVerdict }
}

/** Reads a position. @throws {FaultError} every fault of the file */
export const positionFromText = (text: string, file: string): PositionRead => readCircuitOf(text, file)

/**
 * Looks at a position, with the part it names or with another.
 *
 * @throws {FaultError} where the file cannot be used, or no such part or type is known
 */
export async function seeStage(bench: Bench, read: PositionRead, wish: StageWish = {}): Promise<StageSeen> {
  const { position } = read
  const own = partsOfFile(bench, read)
  const { place } = position
  const other = await chosenPart(bench, read, wish, currentAt(read, own))
  if (other === undefined) return { answer: stageAnswer(position, needed(own, place), wish) }
  const answer = stageAnswer(position, { ...own, [place]: other }, wish)
  const first = own[place]
  if (first === undefined) return { answer }
  return { answer, published: { part: first.name, verdict: stageVerdict(position, own) } }
}

/** The part asked for; nothing where it is the one of the file. */
export async function chosenPart(
  bench: Bench,
  { wanted, position }: PositionRead,
  { part, type }: StageWish,
  nearA?: number,
): Promise<PartNumbers | undefined> {
  if (part === undefined) return type === undefined ? undefined : typeNumbers(typeNamed(bench, type), nearA)
  const all = await newestParameters(bookOf(bench), { symbols: stageSymbols })
  const found = all.find((p) => p.tag === part)
  const near = nearNames(
    part,
    all.map((p) => p.tag),
  )
  if (found === undefined) throw new FaultError({ code: 'not-found', what: 'part in the book', name: part, near })
  if (found.parameters.length === 0) await refuseBroken(bench, part)
  const typeOf = type ?? found.type ?? wantedType(wanted[position.place])
  if (typeOf === undefined)
    throw new FaultError({
      code: 'usage',
      problem: `The type of ${part} is not known`,
      mend: 'Say with --type what it is nearest to.',
    })
  return measuredNumbers(part, typeNamed(bench, typeOf), found.parameters, nearA)
}

/** What a part was when it was read last; one that was never read counts as measured. */
export const lastState = async (bench: Bench, part: string): Promise<PartResult['state']> =>
  (await results(bookOf(bench), { part })).at(-1)?.result.state ?? 'measured'

/** A part that was last found shorted or open works in no place, whatever is published of its type. @throws {FaultError} */
async function refuseBroken(bench: Bench, part: string): Promise<void> {
  const last = await lastState(bench, part)
  if (last === 'measured') return
  throw new FaultError({
    code: 'usage',
    problem: `${part} was found ${last === 'short' ? 'shorted' : 'open'} when it was read last, and works in no place`,
    mend: 'Name another part, or read this one again.',
  })
}

/** Current of the place that is looked at, with the parts of the file; undefined where they do not fill the stage. */
export function currentAt({ position }: PositionRead, own: Parts): number | undefined {
  return isFilled(position, own) ? placeCurrents(position, own)[position.place] : undefined
}

const wantedType = (wanted: WantedPart | undefined): string | undefined =>
  wanted !== undefined && 'type' in wanted ? wanted.type : undefined

/** Numbers of all parts the file names, as `wantedParts`. @throws {FaultError} where a type is not known */
export const partsOfFile = (bench: Bench, read: PositionRead): Parts =>
  wantedParts(read, (name) => typeNamed(bench, name))

function needed(parts: Parts, place: string): Parts {
  if (parts[place] !== undefined) return parts
  const mend = 'Name one under parts, or with --part or --type.'
  throw new FaultError({ code: 'usage', problem: `Nothing is said of what stands at ${place}`, mend })
}

/** A verdict as scripts read it. */
export interface VerdictOfStage {
  readonly word: StageVerdict['word']
  readonly limit: string
  readonly fails_at?: number
  readonly margin: number
  readonly why: string
}

export const verdictOfStage = ({ failsAtC, ...v }: StageVerdict): VerdictOfStage => ({
  ...v,
  ...(failsAtC === undefined ? {} : { fails_at: failsAtC }),
})

/** What `germane stage --json` prints. Documented in docs/reference/json.md. */
export type StageDocument = ReturnType<typeof stageDocument>

/** What every document of a position begins with. */
export const positionHead = ({ title, template, polarity, supplyV, place }: Position) => ({
  title,
  stage: template.id,
  polarity,
  supply: supplyV,
  place,
})

export function stageDocument({ answer, published }: StageSeen) {
  const { position, parts } = answer
  const part = parts[position.place]!
  return {
    format: 'germane/stage/1' as const,
    ...positionHead(position),
    part: part.name,
    verdict: verdictOfStage(answer.verdict),
    limits: answer.limits.map(({ limit, says, spare, atC, failsAtC }) => ({
      limit,
      says,
      spare,
      at: atC,
      ...(failsAtC === undefined ? {} : { fails_at: failsAtC }),
    })),
    points: answer.table.map(({ state, point }) => ({
      state,
      temperature: point.ambientC,
      junction: point.junctionC,
      ic: point.ic,
      ib: point.ib,
      vce: point.vce,
      vbe: point.vbe,
      power: point.powerW,
      loop_gain: point.loopGain,
      ...(point.mostKPerW === undefined ? {} : { most_rth: point.mostKPerW }),
      rooms: point.rooms,
    })),
    strains: answer.cases.map(({ name, says, verdict }) => ({ name, says, verdict: verdictOfStage(verdict) })),
    stability: answer.stability.filter((f) => Number.isFinite(f.solved)),
    leakage: answer.leakage.map(({ temperatureC, ic, icWithout, vce, vceWithout }) => ({
      temperature: temperatureC,
      ic,
      ic_without: icWithout,
      vce,
      vce_without: vceWithout,
    })),
    ...(answer.spread === undefined
      ? {}
      : {
          spread: {
            count: answer.spread.count,
            seed: answer.spread.seed,
            at: answer.spread.at.map(({ temperatureC, ...s }) => ({ temperature: temperatureC, ...s })),
            runaway: answer.spread.runsAway.map(({ temperatureC, share }) => ({ temperature: temperatureC, share })),
          },
        }),
    ...(published === undefined
      ? {}
      : { published: { part: published.part, verdict: verdictOfStage(published.verdict) } }),
    ...heatOf(answer),
    notes: part.notes,
  }
}

/** The way of the part's heat and what it warms, where its heat is known. */
function heatOf({ position, parts }: StageAnswer) {
  const { rthKPerW } = parts[position.place]!.ratings
  return rthKPerW === undefined ? {} : { heat: { rth: rthKPerW, warms: couplingOf(position) } }
}
