import type { PartRun, PartStory } from '#api'
import type { Tester } from '#core/tester'
import { interval95 } from '#core/uncertainty'
import { axisKind, bySymbol, type PartSection, type PlotModel, parameterName, reportModel } from '#report/model'
import type { IntervalPlot } from '#report/plot'
import { dayText } from './words.ts'

/** What one run says of the part, as the report says it. */
export interface Told {
  readonly section: PartSection
  readonly plots: readonly PlotModel[]
  readonly reading: readonly string[]
}

/** Readings of a run that count: those no later one replaces. */
export const countingReadings = (run: PartRun) =>
  run.readings.filter((r) => !run.readings.some((other) => other.replaces === r.id))

/** The page of the report for one run of the part; undefined where nothing could be computed. */
export function toldBy(story: PartStory, run: PartRun, tester: Tester): Told | undefined {
  const { outcome } = run
  if (outcome === undefined) return undefined
  const type = outcome.result.type
  const model = reportModel({
    title: story.part.tag,
    printedAt: run.run.startedAt,
    tester,
    partTypes: type === undefined || story.partType === undefined ? {} : { [type]: story.partType },
    results: [outcome.result],
    verdicts: outcome.verdicts,
    notes: [],
    readings: countingReadings(run).map((r) => r.reading),
    workings: 'folded',
  })
  const section = model.sections[0]
  return section === undefined ? undefined : { section, plots: model.plots, reading: model.reading }
}

/** The same parameter in every run, one below the other: only symbols that more than one run gave. */
export function historyPlots(story: PartStory, at25: boolean): readonly IntervalPlot[] {
  const standing = at25 ? 'brought to 25 C' : 'measured'
  const found = story.runs.flatMap((r) =>
    (r.outcome?.result.parameters ?? [])
      .filter((p) => p.standing === standing)
      .map((parameter) => ({ run: r.run, verdicts: r.outcome?.verdicts ?? [], parameter })),
  )
  const symbols = [...new Set(found.map((f) => f.parameter.symbol))].sort(bySymbol)
  return symbols.flatMap((symbol) => {
    const own = found.filter((f) => f.parameter.symbol === symbol)
    if (new Set(own.map((f) => f.run.id)).size < 2) return []
    const rows = own.map(({ run, verdicts, parameter: p }) => {
      const [low, high] = interval95(p.quantity)
      const verdict = verdicts.find((v) => v.parameter === symbol && v.verdict !== 'not comparable')
      const outcome = verdict?.verdict ?? ('not judged' as const)
      return { label: `run ${run.id}, ${dayText(run.startedAt)}`, value: p.quantity.value, low, high, outcome }
    })
    const axis = { symbol, name: parameterName(symbol), unit: own[0]!.parameter.quantity.unit, kind: axisKind(symbol) }
    return [
      {
        title: `${parameterName(symbol)} in every run`,
        desc: `${rows.length} values of ${parameterName(symbol)}, newest first, with their 95 % intervals.`,
        axis,
        groups: [{ label: story.part.tag, at: '', limits: [], rows }],
      },
    ]
  })
}
