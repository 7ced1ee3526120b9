import type { StageReBias } from '#bench'
import type { Position, Ranking, ResistorChange, Rest } from '#core/stage'
import { block, percent } from './say.ts'
import { stageValue, stageWordText } from './stage-lines.ts'
import { tableLines, wrapped } from './table.ts'

const headOf = (p: Position): string => `${p.title}: ${p.template.title}, ${p.polarity}, ${stageValue(p.supplyV, 'V')}`

/** A drawer tried in a position, best first. */
export function rankingLines(position: Position, { ranked, leftOut }: Ranking): readonly string[] {
  const rows = ranked.map(({ part, verdict, point }, k) => [
    String(k + 1),
    part.name,
    stageWordText(verdict.word),
    percent(verdict.margin),
    point === undefined ? '' : stageValue(point.ic, 'A'),
    point === undefined ? '' : stageValue(point.vce, 'V'),
    verdict.why,
  ])
  return [
    `${headOf(position)}; ${position.place}`,
    '',
    ...tableLines(['>', 'part', 'verdict', '>spare', '>I_C', '>V_CE', 'why'], rows),
    ...block(
      'Not tried:',
      tableLines(
        ['part', 'why'],
        leftOut.map((l) => [l.name, l.why]),
      ),
    ),
  ]
}

/** What brings a stage back with another part in it, before and after. */
export function reBiasLines(
  { position, first, other, result, verdict, advice }: StageReBias,
  series: string,
): readonly string[] {
  const { before, unchanged, changes, after, nearest } = result
  const rests: [string, Rest | undefined][] = [
    [`${first.name} as it was`, before],
    [`${other.name}, nothing changed`, unchanged],
    [`${other.name}, changed`, after ?? nearest?.after],
  ]
  return [
    `${headOf(position)}; ${other.name} for ${first.name} at ${position.place}`,
    '',
    ...saidLines(changes, nearest?.changes, series),
    '',
    ...tableLines(
      ['', '>I_C', '>V_CE', '>drift', '>least room'],
      rests.flatMap(([name, r]) =>
        r === undefined
          ? []
          : [
              [
                name,
                stageValue(r.ic, 'A'),
                stageValue(r.vce, 'V'),
                percent(r.drift),
                stageValue(Math.min(...r.rooms), 'V'),
              ],
            ],
      ),
    ),
    ...(verdict === undefined ? [] : ['', ...wrapped(`${stageWordText(verdict.word)}. ${verdict.why}`)]),
    ...block(
      advice.length === 0 ? '' : 'Advice, not worked out here:',
      advice.flatMap((a) => wrapped(a, '- ')),
    ),
  ]
}

function saidLines(
  changes: readonly ResistorChange[] | undefined,
  nearest: readonly ResistorChange[] | undefined,
  series: string,
): readonly string[] {
  if (changes !== undefined && changes.length === 0) return ['No resistor need be changed.']
  if (changes !== undefined) return [`The least change, from ${series}:`, ...changeLines(changes)]
  if (nearest === undefined) return wrapped(`No values of ${series} within a decade bring the current back.`)
  return [
    ...wrapped(
      `No values of ${series} within a decade bring back both current and drift. The nearest bring back the current:`,
    ),
    ...changeLines(nearest),
  ]
}

const changeLines = (changes: readonly ResistorChange[]): readonly string[] =>
  tableLines(
    ['resistor', '>from', '>to'],
    changes.map((c) => [c.ref, stageValue(c.fromOhm, 'ohm'), stageValue(c.toOhm, 'ohm')]),
  )
