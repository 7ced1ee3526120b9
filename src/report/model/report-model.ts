import type { Reading } from '#core/tester'
import { aboutFacts, summaryCounts } from './heading.ts'
import { type JudgedPart, judgedParts, type SectionIds } from './judged.ts'
import { leadLines } from './lead.ts'
import { limitRows } from './limit-rows.ts'
import type { PartSection, ReportModel } from './model.ts'
import { partSection } from './part-section.ts'
import { partTables } from './parts-table.ts'
import { plotModels } from './plots.ts'
import { checkInput, type ReportInput, reportDefaults, type Workings } from './report-input.ts'
import { counted } from './wording.ts'

/**
 * Makes the page of a report as plain data: of one part, or of a lot.
 *
 * Above `sectionLimit` parts (300 by default) only the parts asked for get a section; the page says so.
 *
 * @throws {FaultError} where the date is none or a section is asked for a part that is not there; all faults together
 */
export function reportModel(input: ReportInput): ReportModel {
  checkInput(input)
  const parts = judgedParts(input.results, input.verdicts)
  const kind = parts.length === 1 ? 'part' : 'lot'
  const workings: Workings = input.workings ?? (kind === 'part' ? 'open' : 'folded')
  const chosen = chosenParts(parts, input)
  const ids = new Map(chosen.map((p, i) => [p, `part-${i + 1}`]))
  const leftOut = leftOutText(parts.length, chosen.length)
  return {
    format: 'germane/report/1',
    kind,
    title: input.title,
    lead: leadLines(parts, ids),
    about: aboutFacts(input, parts),
    summary: kind === 'part' ? [] : summaryCounts(parts),
    notes: input.notes,
    tables: kind === 'part' ? [] : partTables(parts, input.partTypes, ids),
    plots: plotModels(parts),
    curves: input.curves ?? [],
    limits: kind === 'part' ? [] : limitRows(parts),
    sections: sections(chosen, ids, input, workings),
    ...(leftOut === undefined ? {} : { leftOut }),
    reading: howToRead(input),
    cautions: cautions(input),
    workings,
  }
}

/** Parts that get a section: those asked for, else all of a lot that is not too large. */
function chosenParts(parts: readonly JudgedPart[], input: ReportInput): readonly JudgedPart[] {
  if (input.sections !== undefined) {
    const wanted = new Set(input.sections)
    return parts.filter((p) => wanted.has(p.result.part))
  }
  return parts.length <= (input.sectionLimit ?? reportDefaults.sectionLimit) ? parts : []
}

function leftOutText(all: number, chosen: number): string | undefined {
  if (chosen === all) return undefined
  const here =
    chosen === 0
      ? 'No part has its own section here'
      : `${counted(chosen, 'part')} of ${all.toLocaleString('en-US')} ${chosen === 1 ? 'has its' : 'have their'} own section`
  return `${here}: this lot is shown by its table and plots. Ask for a report of a part by its tag to see its working.`
}

function sections(
  chosen: readonly JudgedPart[],
  ids: SectionIds,
  input: ReportInput,
  workings: Workings,
): readonly PartSection[] {
  const byPart = new Map<string, Reading[]>()
  for (const r of chosen.length === 0 ? [] : (input.readings ?? [])) {
    const list = byPart.get(r.part)
    if (list === undefined) byPart.set(r.part, [r])
    else list.push(r)
  }
  return chosen.map((part) =>
    partSection(part, {
      id: ids.get(part)!,
      partType: part.result.type === undefined ? undefined : input.partTypes[part.result.type],
      readings: byPart.get(part.result.part) ?? [],
      hasWorkings: workings !== 'none',
    }),
  )
}

/** The few things one must know to read the numbers. */
function howToRead(input: ReportInput): readonly string[] {
  const isUndecided = input.verdicts.some((v) => v.verdict === 'undecided')
  const isApart = input.verdicts.some((v) => v.verdict === 'not comparable')
  return [
    'After each number, \u00b1 gives half the interval in which the true value lies with 95 % probability. Values of PNP parts are given without their minus sign. In sentences, 103(6) stands for 103 with a standard uncertainty of 6 in the last digits; twice that is about half the interval.',
    ...(isUndecided
      ? [
          'Undecided means that the interval reaches across the limit too far to say either way. It says nothing bad about the part; each one names what would settle it.',
        ]
      : []),
    ...(isApart
      ? ['Not comparable means that the limit is published at a condition this test cannot be carried over to.']
      : []),
  ]
}

/** What this page is not. */
function cautions(input: ReportInput): readonly string[] {
  const isRecalled = input.verdicts.some((v) => v.source.includes('from memory'))
  return [
    ...(isRecalled
      ? [
          'Limits marked "from memory" were recalled and not read from a document. Check them in the maker\u2019s datasheet before you reject a part.',
        ]
      : []),
    'Where this page and the maker\u2019s datasheet differ, the datasheet rules.',
    'This is a record of a bench test. It is not a calibration certificate and not a certificate of conformity.',
  ]
}
