import type { Fault, Place } from '#core/fault'
import { type ParseOptions, parseValue, type Unit } from '#core/quantity'
import { findRange, rangesFor } from './find-range.ts'
import { readingFaults, readShown } from './parse-shown.ts'
import type { Reading } from './reading.ts'
import { readingKindOf } from './reading-kind.ts'
import { tagProblem } from './tag.ts'
import type { Tester } from './tester.ts'

/** What one reading of a file is made of: the columns of a table, the keys of a JSON entry. */
export const readingFields = [
  { name: 'part', required: true, description: 'Tag of the part.', example: 'A1' },
  { name: 'type', required: false, description: 'Type of the part.', example: 'AC128' },
  { name: 'reads', required: true, description: 'What was read, by its symbol: I_CEO, h_FE, short.', example: 'I_CEO' },
  {
    name: 'shown',
    required: true,
    description: 'What was shown: 7.3 div, 12.5 uA, 118, clear, over.',
    example: '7.3 div',
  },
  { name: 'range', required: false, description: 'Range, or span of the gain dial.', example: '100 uA' },
  {
    name: 'scale',
    required: false,
    description: 'Printed scale, where not the usual one of the range.',
    example: '100',
  },
  { name: 'point', required: false, description: 'Number of the operating point; 1 where left out.', example: '1' },
  { name: 'supply', required: false, description: 'Voltage of the tap or supply, in V.', example: '4.5 V' },
  { name: 'ambient', required: false, description: 'Ambient temperature, in degC.', example: '21 degC' },
  { name: 'at', required: false, description: 'Date and time, as 2024-05-12 14:30.', example: '2024-05-12 14:30' },
  { name: 'note', required: false, description: 'Anything worth keeping.', example: 'leads were dirty' },
] as const

export type ReadingField = (typeof readingFields)[number]['name']

/** One reading as texts, and where each stands. */
export interface Entry {
  /** The text of a field; empty where there is none. */
  readonly text: (field: ReadingField) => string
  /** Unit that stands over the field's column. */
  readonly unit: (field: ReadingField) => string | undefined
  readonly place: (field: ReadingField) => Place
  readonly decimal: NonNullable<ParseOptions['decimal']>
}

/** What holds for a whole file. */
export interface FileAmbient {
  readonly ambientC?: number
  readonly ambientU?: number
}

interface Problem {
  readonly problem: string
  readonly mend: string
}

const mostLetters = { part: 60, type: 60, range: 60, scale: 60, note: 2000 } as const

/** Makes a reading of an entry, or all that is wrong with it. */
export function readEntry(entry: Entry, common: FileAmbient, tester?: Tester): Reading | readonly Fault[] {
  const faults: Fault[] = []
  const refuse = (field: ReadingField, { problem, mend }: Problem, value = entry.text(field)): undefined => {
    faults.push({ code: 'bad-input', place: entry.place(field), value, problem, mend })
  }
  const texts = readTexts(entry, refuse)
  const kind = readingKindOf(entry.text('reads'))
  if (!kind.ok) refuse('reads', kind)
  const unit = entry.unit('shown')
  const shown = kind.ok
    ? readShown(entry.text('shown'), kind.reads, { decimal: entry.decimal, ...(unit === undefined ? {} : { unit }) })
    : undefined
  if (shown?.ok === false) refuse('shown', shown)
  const point = pointOf(entry, refuse)
  const conditions = readConditions(entry, refuse)
  if (faults.length > 0 || !kind.ok || shown?.ok !== true) {
    const more = tester === undefined || !kind.ok ? [] : besides(tester, kind.reads, texts.range, conditions, entry)
    return [...faults, ...more]
  }
  const reading: Reading = {
    part: texts.part,
    ...(texts.type === '' ? {} : { type: texts.type }),
    reads: kind.reads,
    shown: shown.shown,
    seen: seenText(entry.text('shown'), unit),
    ...rangeField(texts.range, kind.reads, tester),
    ...(texts.scale === '' ? {} : { scale: texts.scale }),
    point,
    ...conditions.supply,
    ...(conditions.ambient.ambientC === undefined ? common : conditions.ambient),
    ...conditions.at,
    ...(texts.note === '' ? {} : { note: texts.note }),
  }
  return tester === undefined ? reading : against(tester, reading, entry)
}

type Refuse = (field: ReadingField, problem: Problem, value?: string) => undefined

function readTexts(entry: Entry, refuse: Refuse): Record<keyof typeof mostLetters, string> {
  const texts = { part: '', type: '', range: '', scale: '', note: '' }
  for (const field of ['part', 'type', 'range', 'scale', 'note'] as const) {
    const text = entry.text(field)
    texts[field] = text
    const most = mostLetters[field]
    if (text.length > most)
      refuse(field, { problem: `is too long: at most ${most} letters`, mend: 'Shorten it.' }, `${text.slice(0, 40)}...`)
  }
  const bad = tagProblem(texts.part)
  if (texts.part === '') refuse('part', { problem: 'is empty', mend: 'Write the tag of the part.' })
  else if (bad !== undefined) refuse('part', bad)
  return texts
}

/** A number under a unit of its column is kept with that unit, so that it stays readable on its own. */
const seenText = (text: string, unit: string | undefined): string =>
  unit !== undefined && /^[+-]?[\d.,]+(?:[eE][+-]?\d+)?$/.test(text) ? `${text} ${unit}` : text

/** A range under the name its tester gives it. */
function rangeField(text: string, reads: Reading['reads'], tester: Tester | undefined): { readonly range?: string } {
  if (text === '') return {}
  if (tester === undefined || reads === 'h_FE') return { range: text }
  const offered = findRange(tester, text, rangesFor(tester, reads))
  const found = offered.ok ? offered : findRange(tester, text)
  return { range: found.ok ? found.range.id : text }
}

function pointOf(entry: Entry, refuse: Refuse): number {
  const text = entry.text('point')
  if (text === '') return 1
  const n = Number(text)
  if (/^\d{1,5}$/.test(text) && n >= 1) return n
  refuse('point', { problem: 'is not a whole number from 1', mend: 'Write 1, 2, 3 and so on.' })
  return 1
}

interface Conditions {
  readonly supply: { readonly supplyV?: number }
  readonly ambient: FileAmbient
  readonly at: { readonly at?: string }
}

function readConditions(entry: Entry, refuse: Refuse): Conditions {
  const supply = valueIn(entry, 'supply', 'V', refuse)
  if (supply !== undefined && (supply.value < 0 || supply.value > 10_000))
    refuse('supply', { problem: 'is not a supply voltage', mend: 'Write its size, such as 4.5 V.' })
  const ambient = valueIn(entry, 'ambient', 'degC', refuse)
  if (ambient !== undefined) {
    const problem = ambientProblem(ambient.value)
    if (problem !== undefined) refuse('ambient', problem)
  }
  const at = entry.text('at')
  const when = at === '' ? undefined : dateText(at)
  if (at !== '' && when === undefined)
    refuse('at', { problem: 'is not a date and time', mend: 'Write year, month, day: 2024-05-12 or 2024-05-12 14:30.' })
  return {
    supply: supply === undefined ? {} : { supplyV: supply.value },
    ambient: ambient === undefined ? {} : ambientOf(ambient),
    at: when === undefined ? {} : { at: when },
  }
}

/** What is wrong with a room temperature. */
export const ambientProblem = (celsius: number): Problem | undefined =>
  celsius < -30 || celsius > 60
    ? { problem: 'is not an ambient temperature in degC', mend: 'Write it as 21 degC.' }
    : undefined

/** An ambient temperature with its uncertainty, where one was written with it. */
export const ambientOf = (v: { readonly value: number; readonly u?: number }): FileAmbient => ({
  ambientC: v.value,
  ...(v.u === undefined || v.u === 0 ? {} : { ambientU: v.u }),
})

function valueIn(
  entry: Entry,
  field: ReadingField,
  unit: Unit,
  refuse: Refuse,
): { readonly value: number; readonly u?: number } | undefined {
  const text = entry.text(field)
  if (text === '') return undefined
  const parsed = parseValue(seenText(text, entry.unit(field)), { unit, decimal: entry.decimal })
  return parsed.ok ? parsed : refuse(field, parsed)
}

/** A date, or date and time, in the form of ISO 8601; undefined where it is none. */
function dateText(text: string): string | undefined {
  const m = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:\.\d{1,9})?)?(Z|[+-]\d{2}:?\d{2})?)?$/.exec(
    text,
  )
  if (m === null) return undefined
  const [year, month, day, hour, minute, second] = m.slice(1, 7).map((p) => Number(p ?? 0)) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ]
  const date = new Date(Date.UTC(year, month - 1, day))
  const isDay = date.getUTCMonth() === month - 1 && date.getUTCDate() === day
  return isDay && hour < 24 && minute < 60 && second < 60 ? text.replace(' ', 'T') : undefined
}

/** What is wrong with range and supply of a reading that is refused for something else as well. */
function besides(
  tester: Tester,
  reads: Reading['reads'],
  range: string,
  conditions: Conditions,
  entry: Entry,
): readonly Fault[] {
  const found = range === '' || reads === 'h_FE' ? undefined : findRange(tester, range)
  const faults = found === undefined || found.ok ? [] : found.faults.map((f) => placed(f, entry))
  return [...faults, ...supplyFaults(tester, conditions.supply.supplyV, entry)]
}

/** A fault of a reading, said of its place in the file. */
function placed(f: Fault, entry: Entry): Fault {
  if (f.code === 'bad-input') return { ...f, place: entry.place((f.place.field ?? 'shown') as ReadingField) }
  if (f.code !== 'not-found') return f
  const near = f.near.length === 0 ? '' : `Did you mean ${f.near.join(' or ')}? `
  const mend = `${near}${f.mend ?? ''}`.trim()
  return {
    code: 'bad-input',
    place: entry.place('range'),
    value: f.name,
    problem: `is not a ${f.what}`,
    mend: mend === '' ? 'Check it.' : mend,
  }
}

function supplyFaults(tester: Tester, supplyV: number | undefined, entry: Entry): readonly Fault[] {
  const most = tester.limits.maxVoltageV
  if (supplyV === undefined || supplyV <= most) return []
  const problem = `is above the limit of ${tester.name} (${most} V)`
  return [
    {
      code: 'bad-input',
      place: entry.place('supply'),
      value: entry.text('supply'),
      problem,
      mend: 'Check the number.',
    },
  ]
}

/** Holds a reading against its tester: range, scale, unit, needle within the scale, supply within limits. */
function against(tester: Tester, reading: Reading, entry: Entry): Reading | readonly Fault[] {
  const faults = [
    ...readingFaults(tester, reading).map((f) => placed(f, entry)),
    ...supplyFaults(tester, reading.supplyV, entry),
  ]
  return faults.length > 0 ? faults : reading
}
