import { newestParameters, saveMarkNoted, setting, usableStatuses } from '#book'
import type { PartType } from '#core/device'
import { FaultError } from '#core/fault'
import type { Parameter } from '#core/reduce'
import {
  measuredNumbers,
  type PartNumbers,
  type Parts,
  type Position,
  type PositionRead,
  type StageVerdict,
  stageSymbols,
  typeNumbers,
} from '#core/stage'
import {
  type Availability,
  availabilityWords,
  type Candidate,
  type Check,
  type MeasuredPart,
  type Need,
  type Play,
  playCheck,
  playPart,
  positionNeed,
  type StandIn,
  type StandIns,
  standIns,
  typeNeed,
  type Use,
} from '#core/standin'
import { type Bench, bookOf, typeNamed } from './bench.ts'
import { countsByType, type HeldType, heldByName } from './held-types.ts'
import { patiently } from './patience.ts'
import { currentAt, lastState, partsOfFile } from './stage.ts'

/** Where candidates are looked for. */
export const standInPlaces = ['both', 'catalog', 'drawer'] as const

export interface StandInWish extends Use {
  readonly from?: (typeof standInPlaces)[number]
  /** Parts of the drawer looked at one by one, at most; where there are more, only their types are. */
  readonly mostParts?: number
  /** Ends a search before it has found anything. */
  readonly signal?: AbortSignal | undefined
}

/** Stand-ins that were found, and for what. */
export interface StandInsFound {
  readonly result: StandIns
  readonly position?: Position
  /** Parts of the drawer that were not looked at, as there are too many. */
  readonly notLookedAt?: number
}

/**
 * What stands in for a type, among the published types and, where there is a book, the parts of the drawer.
 *
 * @throws {FaultError} where there is no such type, or it is no bipolar transistor or diode
 */
export async function standInsForType(bench: Bench, type: string, wish: StandInWish = {}): Promise<StandInsFound> {
  const need = typeNeed(typeNamed(bench, type), wish)
  const { candidates, notLookedAt } = await candidatesFor(bench, need, wish)
  return {
    result: standIns(
      need,
      candidates.map((c) => c.candidate),
    ),
    ...notLookedAt,
  }
}

/**
 * What stands in for the part of a position. Each candidate is played in its stage as well.
 *
 * @param type what the position was made for, where its file does not say so or another is meant
 * @throws {FaultError} where the file cannot be used, nothing is said of what stands there, or the search is stopped
 */
export async function standInsAt(
  bench: Bench,
  read: PositionRead,
  wish: StandInWish = {},
  type?: string,
): Promise<StandInsFound> {
  const position = inAir(read.position, wish.ambientC)
  const { parts, partType } = firstParts(bench, read, type)
  const need = positionNeed(position, parts, partType, wish)
  const nearA = need.gain?.atA ?? currentAt(read, parts)
  const { candidates, notLookedAt } = await candidatesFor(bench, need, wish, nearA)
  const held = candidates.map((c) => c.candidate)
  const playedIn = { position, parts, nearA, own: need.own!, signal: wish.signal }
  const plays = await playsOf(standIns(need, held), candidates, playedIn)
  const result = standIns(need, held, (c) => plays.get(c))
  return { result, position, ...notLookedAt }
}

/** A position in hotter or cooler air than it says. @throws {FaultError} `usage` where that is not above its coldest */
function inAir(position: Position, toC: number | undefined): Position {
  if (toC === undefined) return position
  const { demands } = position
  if (toC > demands.fromC) return { ...position, demands: { ...demands, toC } }
  throw new FaultError({
    code: 'usage',
    problem: `The hottest air, ${toC} °C, is not above the coldest of the position, ${demands.fromC} °C`,
    mend: 'Give a higher temperature, or a lower one as from in the position.',
  })
}

interface PlayedIn {
  readonly position: Position
  readonly parts: Parts
  readonly nearA: number | undefined
  /** How the part the stage was made for does. */
  readonly own: StageVerdict
  readonly signal: AbortSignal | undefined
}

/** How those candidates do in the stage that nothing else refuses; a server answers other requests between them. */
async function playsOf(
  unplayed: StandIns,
  candidates: readonly Found[],
  { position, parts, nearA, own, signal }: PlayedIn,
): Promise<ReadonlyMap<Candidate, { readonly play: Play; readonly check: Check }>> {
  const refused = new Set(unplayed.refused.map(nameOf))
  const plays = new Map<Candidate, { readonly play: Play; readonly check: Check }>()
  for (const { candidate: c, numbers = computable(c.type, nearA) } of candidates) {
    if (numbers === undefined || refused.has(nameOf({ name: c.name, isPart: c.measured !== undefined }))) continue
    const play = playPart(position, parts, numbers, own)
    plays.set(c, { play, check: playCheck(play) })
    await new Promise((keep) => setImmediate(keep))
    if (signal?.aborted === true) throw stopped()
  }
  return plays
}

const stopped = (): FaultError =>
  new FaultError({ code: 'usage', problem: 'The search for stand-ins was stopped', mend: 'Begin it again.' })

/** A part may have the tag that a type has as its number. */
const nameOf = ({ name, isPart }: Pick<StandIn, 'name' | 'isPart'>): string => `${isPart ? 'part' : 'type'} ${name}`

/** The parts of a position with the one it was made for in its place, and the type of that. */
function firstParts(
  bench: Bench,
  read: PositionRead,
  type: string | undefined,
): { readonly parts: Parts; readonly partType: PartType | undefined } {
  const { position, wanted } = read
  const own = partsOfFile(bench, read)
  const named = wanted[position.place]
  const name = type ?? (named !== undefined && 'type' in named ? named.type : undefined)
  const partType = name === undefined ? undefined : typeNamed(bench, name)
  const parts =
    type === undefined || partType === undefined
      ? own
      : { ...own, [position.place]: typeNumbers(partType, currentAt(read, own)) }
  if (parts[position.place] !== undefined) return { parts, partType }
  throw new FaultError({
    code: 'usage',
    problem: `Nothing is said of what stood at ${position.place}`,
    mend: 'Name it under parts, or give its type before --position.',
  })
}

const computable = (type: PartType, nearA: number | undefined): PartNumbers | undefined => {
  try {
    return typeNumbers(type, nearA)
  } catch (error) {
    if (error instanceof FaultError) return undefined
    throw error
  }
}

interface Found {
  readonly candidate: Candidate
  /** Of a part of the drawer. */
  readonly numbers?: PartNumbers
}

/** All candidates of the family that is asked for. */
async function candidatesFor(bench: Bench, need: Need, { from = 'both', mostParts }: StandInWish, nearA?: number) {
  const drawer = await heldByName(bench)
  const inDrawer = countsByType(drawer)
  const marks = bench.book === undefined ? {} : await availabilityMarks(bench)
  if (bench.book === undefined && from === 'drawer') bookOf(bench)
  const fitting = drawer.filter(
    ({ type: t }) => t.family === need.family && (t.polarity === need.polarity || need.polarity === undefined),
  )
  const catalog: readonly Found[] =
    from === 'drawer'
      ? []
      : bench.types.map((type) => ({ candidate: withMarks({ name: type.type, type }, marks, inDrawer) }))
  const all = fitting.reduce((sum, { count }) => sum + count, 0)
  const isTooMany = mostParts !== undefined && all > mostParts
  const parts = from === 'catalog' || isTooMany ? [] : await partsOf(bench, fitting, nearA ?? need.gain?.atA)
  return { candidates: [...parts, ...catalog], notLookedAt: isTooMany ? { notLookedAt: all } : {} }
}

const withMarks = (c: Candidate, marks: Marks, inDrawer: ReadonlyMap<string, number>): Candidate => {
  const [mark, count] = [marks[c.type.type], inDrawer.get(c.type.type)]
  return {
    ...c,
    ...(mark === undefined ? {} : { availability: mark }),
    ...(count === undefined ? {} : { inDrawer: count }),
  }
}

/** Every usable part of some types, with what was measured of it; none that was found shorted or open when read last. */
async function partsOf(bench: Bench, types: readonly HeldType[], nearA: number | undefined): Promise<readonly Found[]> {
  const found: Found[] = []
  for (const { name, type } of types)
    for (const p of await newestParameters(bookOf(bench), { symbols: stageSymbols, type: name })) {
      if (!usableStatuses.includes(p.status) || computable(type, nearA) === undefined) continue
      if (p.parameters.length === 0 && (await lastState(bench, p.tag)) !== 'measured') continue
      const numbers = measuredNumbers(p.tag, type, p.parameters, nearA)
      found.push({ candidate: { name: p.tag, type, measured: measuredOf(numbers, p.parameters) }, numbers })
    }
  return found
}

const gainSymbols: ReadonlySet<string> = new Set(['h_FE0', 'h_FE0(I_CBO)', 'h_FE'])
const leakageSymbols: ReadonlySet<string> = new Set(['I_CBO', 'I_CES', 'I_CEO', 'I_R'])

/** What of a part's numbers was measured, not taken from its type. */
function measuredOf(n: PartNumbers, parameters: readonly Parameter[]): MeasuredPart {
  const has = (symbols: ReadonlySet<string>): boolean =>
    parameters.some(
      (p) => symbols.has(p.symbol) && p.quantity.value > 0 && p.doubts.every((d) => d.weight !== 'nonsense'),
    )
  return {
    ...(n.kind === 'bipolar' && has(gainSymbols) ? { gain: { ...n.gain, atA: n.atA, how: 'measured' } } : {}),
    ...(has(leakageSymbols) ? { leakage: { ...n.leakageA, how: 'measured' } } : {}),
  }
}

type Marks = Readonly<Record<string, Availability>>

/** Name of the setting the marks are kept under. */
const marksSetting = 'availability'

const isMark = (word: unknown): word is Availability => availabilityWords.some((w) => w === word)

/** How well types can be had, as the user marked them in the book. */
export async function availabilityMarks(bench: Bench): Promise<Marks> {
  const kept = await setting(bookOf(bench), marksSetting)
  if (typeof kept !== 'object' || kept === null) return {}
  return Object.fromEntries(Object.entries(kept).filter((e): e is [string, Availability] => isMark(e[1])))
}

/**
 * Marks how well a type can be had, or takes the mark away.
 *
 * @returns the type as its record calls it, and the edit by which it can be undone
 * @throws {FaultError} where there is no such type
 */
export async function markAvailability(
  bench: Bench,
  type: string,
  word: Availability | undefined,
): Promise<{ readonly type: string; readonly edit?: number }> {
  const { type: of } = typeNamed(bench, type)
  const mark = {
    setting: marksSetting,
    of,
    word: word ?? null,
    say: `${of} ${word === undefined ? 'lost its mark' : `was marked as ${word}`}.`,
  }
  const edit = await patiently(() => saveMarkNoted(bookOf(bench), mark, bench.now()))
  return { type: of, ...(edit === undefined ? {} : { edit }) }
}
