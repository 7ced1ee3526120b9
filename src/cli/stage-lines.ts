import type { StageSeen } from '#bench'
import { printPlain, type Unit } from '#core/quantity'
import { couplingOf, runawayText, type StageAnswer, type StageVerdict, type StageWord } from '#core/stage'
import { block, percent } from './say.ts'
import { tableLines, wrapped } from './table.ts'

/** Three digits with their unit. */
export const stageValue = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 3 })
export const stageDegrees = (t: number): string => `${Number(t.toFixed(1))} °C`

const marks: Readonly<Record<StageWord, string>> = { works: '=', 'works but drifts': '~', 'will not': 'x' }

/** A verdict with its mark, so that it reads without colour. */
export const stageWordText = (word: StageWord): string => `${marks[word]} ${word}`

/** What a part does in a position, for people. */
export function stageLines({ answer, published }: StageSeen): readonly string[] {
  const { position: p, parts, verdict } = answer
  const part = parts[p.place]!
  return [
    `${p.title}: ${p.template.title}, ${p.polarity}, ${stageValue(p.supplyV, 'V')}; ${part.name} at ${p.place}`,
    '',
    ...wrapped(`${stageWordText(verdict.word)}. ${verdict.why}`),
    ...(published === undefined ? [] : publishedLines(published.part, published.verdict)),
    '',
    ...pointLines(answer),
    ...block('What is spare of each limit, at its worst:', limitLines(answer)),
    ...heatLines(answer),
    ...block(
      'Under strain:',
      answer.cases.flatMap((c) => wrapped(`${c.says}: ${stageWordText(c.verdict.word)}. ${c.verdict.why}`, '  ')),
    ),
    ...stabilityLines(answer),
    ...block('What the leakage of the part does:', leakageLines(answer)),
    ...spreadLines(answer),
    ...block(
      'Taken where nothing is known:',
      part.notes.flatMap((n) => wrapped(n, '  ')),
    ),
  ]
}

const publishedLines = (part: string, verdict: StageVerdict): readonly string[] =>
  wrapped(`${part}, which the position names: ${stageWordText(verdict.word)}. ${verdict.why}`)

/** A small table over temperature. */
function pointLines({ position: { template: t }, table }: StageAnswer): readonly string[] {
  const isDiode = table[0]?.point.ib === 0 && table[0].point.vbe === 0
  const hasStates = t.states.length > 1
  const room = t.rooms.length > 0
  const head = [
    '>air',
    ...(hasStates ? ['state'] : []),
    '>junction',
    isDiode ? '>I_F' : '>I_C',
    isDiode ? '>V_F' : '>V_CE',
    ...(isDiode ? [] : ['>V_BE']),
    '>heat',
    ...(room ? ['>least room'] : []),
  ]
  const rows = table.map(({ state, point: p }) => [
    stageDegrees(p.ambientC),
    ...(hasStates ? [state] : []),
    stageDegrees(p.junctionC),
    stageValue(p.ic, 'A'),
    stageValue(p.vce, 'V'),
    ...(isDiode ? [] : [stageValue(p.vbe, 'V')]),
    stageValue(p.powerW, 'W'),
    ...(room ? [stageValue(Math.min(...p.rooms), 'V')] : []),
  ])
  return tableLines(head, rows)
}

/** How far thermal runaway is, in the hottest air. */
function heatLines({ position, parts, table }: StageAnswer): readonly string[] {
  const { rthKPerW } = parts[position.place]!.ratings
  const hottest = table.reduce((a, b) => (b.point.ambientC > a.point.ambientC ? b : a), table[0]!)?.point
  if (rthKPerW === undefined || hottest === undefined) return []
  const air = stageDegrees(hottest.ambientC)
  const back =
    hottest.loopGain > 0
      ? `At ${air} a warming of 1 K brings back ${stageValue(hottest.loopGain, 'K')}`
      : `At ${air} a warming makes less heat, not more`
  const most =
    hottest.mostKPerW === undefined
      ? 'it would come to rest with any heat resistance'
      : `it would come to rest with up to ${stageValue(hottest.mostKPerW, 'K/W')}`
  const warms = Object.entries(couplingOf(position))
    .filter(([, share]) => share > 0)
    .map(([ref, share]) => `${ref} by ${percent(share)}`)
  const others = warms.length === 0 ? '' : ` Of its rise it warms ${warms.join(', ')}.`
  return block('Thermal runaway:', wrapped(`${back}; ${most}, and has ${stageValue(rthKPerW, 'K/W')}.${others}`, '  '))
}

const limitLines = ({ limits }: StageAnswer): readonly string[] =>
  tableLines(
    ['limit', '>spare', '>at', '>passed at', 'what happens beyond it'],
    limits.map((l) => [
      l.limit,
      percent(l.spare),
      stageDegrees(l.atC),
      l.failsAtC === undefined ? '' : stageDegrees(l.failsAtC),
      l.says,
    ]),
  )

function stabilityLines({ stability }: StageAnswer): readonly string[] {
  const solved = stability.map((f) => [f.symbol, stageValue(f.solved, f.unit)])
  if (stability.every((f) => f.textbook === undefined))
    return block('Stability at 25 °C, solved:', solved.length === 0 ? [] : tableLines(['factor', '>solved'], solved))
  return block(
    'Stability at 25 °C, solved and by the textbook (which leaves out the transistor itself):',
    tableLines(
      ['factor', '>solved', '>textbook', 'textbook formula'],
      stability.map((f, k) => [
        ...solved[k]!,
        f.textbook === undefined ? '' : stageValue(f.textbook, f.unit),
        f.textbook === undefined ? '' : f.formula,
      ]),
    ),
  )
}

const leakageLines = ({ leakage }: StageAnswer): readonly string[] =>
  leakage.length === 0
    ? []
    : tableLines(
        ['>air', '>I_C with', '>without', '>shift', '>V_CE with', '>without'],
        leakage.map((l) => [
          stageDegrees(l.temperatureC),
          stageValue(l.ic, 'A'),
          stageValue(l.icWithout, 'A'),
          percent(l.ic / l.icWithout - 1),
          stageValue(l.vce, 'V'),
          stageValue(l.vceWithout, 'V'),
        ]),
      )

function spreadLines({ spread }: StageAnswer): readonly string[] {
  if (spread === undefined) return []
  const rows = spread.at.map((s) => [
    stageDegrees(s.temperatureC),
    `${stageValue(s.ic[0], 'A')} to ${stageValue(s.ic[2], 'A')}`,
    `${stageValue(s.vce[0], 'V')} to ${stageValue(s.vce[2], 'V')}`,
    percent(s.holds),
  ])
  const heading = `Of ${spread.count} such stages (seed ${spread.seed}), 95 in a hundred:`
  const away = runawayText(spread).flatMap((line) => wrapped(line, '  '))
  return [
    ...block(heading, rows.length === 0 ? [] : tableLines(['>air', '>I_C', '>V_CE', '>have room'], rows)),
    ...away,
  ]
}
