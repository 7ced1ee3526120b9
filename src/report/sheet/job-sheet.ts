import {
  type BoardColumn,
  boardColumns,
  type Job,
  type JobPosition,
  type PartAs,
  partOfPosition,
  type progressOf,
} from '#core/job'
import { printPlain } from '#core/quantity'
import type { Caution } from '#core/sheet'
import {
  levelsAt,
  makeStage,
  type PartNumbers,
  type Parts,
  type Position,
  type StageAnswer,
  type StageVerdict,
} from '#core/stage'
import { stageDrawing } from '#report/stage'
import { cautionBlock } from './caution-block.ts'
import type { Sheet, SheetBlock } from './sheet.ts'

/** A part of a position as a report of the job tells of it. */
export interface ReportedPart {
  readonly tag: string
  readonly as: PartAs
  readonly type?: string
  readonly verdict?: StageVerdict
  readonly why?: string
}

/** A position as a report of the job tells of it. */
export interface ReportedPosition {
  readonly position: JobPosition
  readonly column: BoardColumn
  readonly circuit?: Position
  readonly own?: Parts
  readonly fault?: string
  readonly wanted?: { readonly part: string; readonly verdict: StageVerdict }
  readonly parts: readonly ReportedPart[]
  /** What the part that counts does there, worked out whole. */
  readonly answer?: StageAnswer
}

/** A photo to print. */
export interface ReportedPhoto {
  readonly name: string
  readonly type: string
  readonly base64: string
}

export interface JobReport {
  readonly job: Job
  readonly progress: ReturnType<typeof progressOf>
  readonly positions: readonly ReportedPosition[]
  readonly cautions: readonly Caution[]
  readonly photos: readonly ReportedPhoto[]
  /** Date and time it is printed at, ISO. */
  readonly printedAt: string
}

/** Temperature of the air at which a stage is drawn, degC. */
const drawnAtC = 25

/** The report of a job: what to mind, every position, and how its verdict was worked out. */
export const jobSheet = (report: JobReport): Sheet => {
  const { job, progress, positions, cautions, photos } = report
  return {
    kind: 'Job',
    title: job.name,
    lead: leadOf(report),
    facts: factsOf(report),
    blocks: [
      ...(job.note === undefined ? [] : [{ kind: 'prose', heading: 'Notes', lines: linesOf(job.note) } as const]),
      ...cautionBlock(cautions),
      ...(positions.length === 0 ? [] : [positionsTable(positions)]),
      ...positions.flatMap(positionBlocks),
      ...photos.map((photo) => ({ kind: 'photo', caption: photo.name, ...photo }) as const),
    ],
    notes: [
      `${positions.length} positions: ${boardColumns.map((column) => `${progress[column]} ${column}`).join(', ')}.`,
      'A verdict holds for the circuit as it was written down, at the usual supply and values; see the positions for what happens under strain. A part is taken as its newest run measured it, at 25 °C.',
      'A part that is fitted counts before one that is reserved, and that before the one that was found.',
    ],
  }
}

const linesOf = (text: string): readonly string[] => text.split(/\n+/).filter((line) => line.trim() !== '')

function leadOf({ job, positions, progress }: JobReport): Sheet['lead'] {
  if (positions.length === 0) return [{ say: 'Nothing is written down of its positions yet.' }]
  const left = positions.length - progress.done
  const open = left === 0 ? 'All positions are done.' : `${left} of ${positions.length} positions are not done yet.`
  const failing = positions.filter((p) => counting(p)?.verdict?.word === 'will not').map((p) => p.position.ref)
  return [
    { say: job.state === 'waiting' && left > 0 ? `${open} The job waits.` : open },
    ...(failing.length === 0
      ? []
      : [{ outcome: 'does not conform' as const, say: `Will not work as it is: ${failing.join(', ')}.` }]),
  ]
}

function factsOf({ job, printedAt }: JobReport): Sheet['facts'] {
  const facts: readonly (readonly [string, string | undefined])[] = [
    ['What it is', job.equipment],
    ['Runs from', job.power],
    ['State', job.state],
    ['Begun', job.begunOn],
    ['Finished', job.finishedOn],
    ['Set aside', job.reserved.length === 0 ? undefined : job.reserved.join(', ')],
    ['Printed', printedAt.slice(0, 10)],
  ]
  return facts.flatMap(([name, text]) => (text === undefined ? [] : [[name, text] as const]))
}

/** The part that counts in a position. */
function counting({ position, parts }: ReportedPosition): ReportedPart | undefined {
  const chosen = partOfPosition(position)
  return chosen === undefined ? undefined : parts.find((one) => one.tag === chosen.tag)
}

const positionsTable = (positions: readonly ReportedPosition[]): SheetBlock => ({
  kind: 'table',
  caption: 'Positions',
  head: ['position', 'wanted', 'role', 'found', 'decision', 'fitted or reserved', 'in its circuit'],
  rows: positions.map((p) => {
    const { ref, type, role, decision, done } = p.position
    const verdict = counting(p)?.verdict
    return [
      ref,
      type ?? '',
      role ?? '',
      joined(p.position.foundPart, p.position.found),
      done ? `${decision}, done` : decision,
      joined(p.position.fittedPart, p.position.fitted) || reservedText(p.position),
      verdict === undefined ? (counting(p)?.why ?? '') : verdict.word,
    ]
  }),
})

const joined = (tag: string | undefined, words: string | undefined): string =>
  [tag, words].filter((one) => one !== undefined).join(', ')
const reservedText = ({ reserved }: JobPosition): string =>
  reserved.length === 0 ? '' : `${reserved.join(', ')} reserved`

/** What is told of a position beyond its row; nothing where there is no more to tell. */
function positionBlocks(p: ReportedPosition): readonly SheetBlock[] {
  const { position, circuit, answer } = p
  const heading = joined(position.ref, position.role)
  const lines = [
    ...(circuit === undefined ? [] : [circuitLine(circuit)]),
    ...(p.fault === undefined ? [] : [p.fault]),
    ...p.parts.map(partLine),
    ...(p.wanted === undefined ? [] : [`${p.wanted.part}, which the circuit names: ${verdictText(p.wanted.verdict)}`]),
    ...(position.note === undefined ? [] : linesOf(position.note)),
    ...(answer === undefined ? [] : workingLines(answer)),
  ]
  if (lines.length === 0) return []
  return [
    { kind: 'prose', heading, lines },
    ...drawingOf(p),
    ...(answer === undefined ? [] : [limitsTable(position.ref, answer)]),
  ]
}

const circuitLine = ({ template, polarity, supplyV, demands }: Position): string =>
  `${capital(template.title)}, ${polarity}, ${value(supplyV, 'V')}, in air from ${demands.fromC} °C to ${demands.toC} °C.`

const capital = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}`

const verdictText = ({ word, why }: StageVerdict): string => `${word}. ${why}`

const partLine = ({ tag, as, type, verdict, why }: ReportedPart): string => {
  const name = type === undefined ? `${tag}, ${as}` : `${tag} (${type}), ${as}`
  return verdict === undefined ? `${name}: not tried, since ${why}.` : `${name}: ${verdictText(verdict)}`
}

const value = (x: number, unit: 'A' | 'V' | '1'): string => printPlain(x, unit, { digits: 3 })

/** The numbers a verdict was worked out with, and what happens under strain. */
function workingLines({ position, parts, cases, stability }: StageAnswer): readonly string[] {
  const part = parts[position.place]!
  return [
    numbersLine(part),
    ...part.notes,
    ...cases.map((one) => `${capital(one.says)}: ${verdictText(one.verdict)}`),
    ...stability
      .filter((f) => Number.isFinite(f.solved) && f.textbook !== undefined)
      .map(
        (f) =>
          `${f.symbol} is ${printPlain(f.solved, f.unit, { digits: 3 })} as solved, ${printPlain(f.textbook!, f.unit, { digits: 3 })} by the textbook: ${f.formula}.`,
      ),
  ]
}

const numbersLine = (p: PartNumbers): string =>
  p.kind === 'bipolar'
    ? `Worked out with h_FE ${value(p.gain.usual, '1')} at ${value(p.atA, 'A')}, I_CBO ${value(p.leakageA.usual, 'A')} at ${value(p.leakageAtV, 'V')} and V_BE ${value(p.vbeV.usual, 'V')} of ${p.name}.`
    : `Worked out with V_F ${value(p.forwardV.usual, 'V')} at ${value(p.atA, 'A')} and I_R ${value(p.leakageA.usual, 'A')} at ${value(p.leakageAtV, 'V')} of ${p.name}.`

function drawingOf({ position: { ref }, circuit, own, answer }: ReportedPosition): readonly SheetBlock[] {
  const parts = answer?.parts ?? own
  if (circuit === undefined || parts === undefined) return []
  const levels = answer === undefined ? undefined : levelsAt(makeStage(circuit, parts), drawnAtC)
  const svg = stageDrawing(circuit, parts, levels)
  if (svg === undefined) return []
  const what = `${ref}: ${circuit.template.title}`
  return [
    {
      kind: 'drawing',
      caption:
        levels === undefined ? `${what}.` : `${what}, with ${parts[circuit.place]!.name}, in air of ${drawnAtC} °C.`,
      svg,
    },
  ]
}

const limitsTable = (ref: string, { limits, parts, position }: StageAnswer): SheetBlock => ({
  kind: 'table',
  caption: `What is spare of each limit: ${parts[position.place]!.name} at ${ref}`,
  head: ['limit', '>spare', '>at', '>passed at', 'what happens beyond it'],
  rows: limits.map((l) => [
    l.limit,
    `${printPlain(l.spare * 100, '1', { digits: 3 })} %`,
    `${Math.round(l.atC)} °C`,
    l.failsAtC === undefined ? '' : `${Math.round(l.failsAtC)} °C`,
    l.says,
  ]),
})
