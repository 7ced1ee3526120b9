import { provenanceText } from '#core/device'
import { say, sentence } from './say.ts'
import type { RunSheet, Step, Window } from './sheet.ts'

export interface SheetTextOptions {
  /** Print what to do when a step shows something odd. */
  readonly advice: boolean
}

export const sheetTextDefaults = { advice: false } as const satisfies SheetTextOptions

const width = 80

/** Breaks a text at blanks; the first line begins with `lead`, the others are set in as far. */
function wrap(lead: string, text: string): readonly string[] {
  const indent = ' '.repeat(lead.length)
  const lines: string[] = []
  let line = lead
  for (const word of text.split(' ')) {
    const isFirst = line === lead || line === indent
    if (!isFirst && line.length + 1 + word.length > width) {
      lines.push(line)
      line = indent
    }
    line += line === lead || line === indent ? word : ` ${word}`
  }
  lines.push(line)
  return lines
}

/** A number of a window: divisions plain, values with their unit. */
const inWindow = (x: number, unit: Window['unit']): string => {
  if (unit === 'div') return String(Number(x.toFixed(1)))
  return say(x, unit === '1' ? '1' : unit)
}

/** Deflection a person cannot see, divisions. */
const unseenDiv = 0.1

function spanText(w: Window): string {
  const { min, typ, max } = w
  const unit = w.unit === 'div' ? ' div' : ''
  const at = (x: number): string => inWindow(x, w.unit)
  if (w.unit === 'div' && max !== undefined && max < unseenDiv) return 'no deflection to be seen'
  if (min !== undefined && min === max) return `${at(min)}${unit}`
  const usual = typ === undefined || (w.unit === 'div' && typ < unseenDiv) ? '' : `, typically ${at(typ)}`
  if (min !== undefined && max !== undefined) return `${at(min)} to ${at(max)}${unit}${usual}`
  if (max !== undefined) return `at most ${at(max)}${unit}${usual}`
  if (min !== undefined) return `${at(min)}${unit} or more${usual}`
  if (typ !== undefined) return `about ${at(typ)}${unit}`
  return 'up to the end and beyond'
}

/** A window in words: `12 to 30 div, typically 20, on the 0-50 scale`. */
export const windowText = (w: Window, scaleName?: string): string =>
  `${spanText(w)}${scaleName === undefined ? '' : `, on the ${scaleName} scale`}`

/** A scale as people call it: `0-50`. */
function scaleName(sheet: RunSheet, id: string | undefined): string | undefined {
  const scale = sheet.tester.scales.find((s) => s.id === id)
  return scale === undefined ? undefined : `0-${scale.end}`
}

function readLines(sheet: RunSheet, s: Extract<Step, { kind: 'read' }>, options: SheetTextOptions): readonly string[] {
  const lines: string[] = []
  const w = s.window
  if (w !== undefined) lines.push(...wrap('    expect: ', `${windowText(w, scaleName(sheet, w.scale))} (${w.from})`))
  if (s.safeSeconds !== undefined)
    lines.push(...wrap('    time:   ', `at most ${s.safeSeconds} s, then bias to zero or supply off`))
  if (options.advice) for (const o of s.odd) lines.push(...wrap('    odd:    ', `${sentence(o.symptom)}? ${o.advice}`))
  return lines
}

function stepLines(sheet: RunSheet, s: Step, n: number, options: SheetTextOptions): readonly string[] {
  return [
    ...wrap(`${String(n).padStart(2)}. `, s.say),
    ...wrap('    why:    ', s.why),
    ...(s.kind === 'read' ? readLines(sheet, s, options) : []),
  ]
}

const section = (title: string, lines: readonly string[]): readonly string[] =>
  lines.length === 0 ? [] : ['', title, ...lines]

/**
 * A run sheet as plain numbered lines for a terminal, at most 80 columns wide.
 *
 * @param options `advice` adds what to do when a step shows something odd
 */
export function sheetText(sheet: RunSheet, options: Partial<SheetTextOptions> = {}): readonly string[] {
  const o = { ...sheetTextDefaults, ...options }
  const source = sheet.partType === undefined ? [] : wrap('Limits: ', provenanceText(sheet.partType.provenance))
  const trouble = sheet.partType?.trouble
  const r = sheet.seriesResistor
  return [
    ...wrap('Run sheet: ', sheet.title),
    ...wrap('Room: ', `${say(sheet.wishes.ambientC, 'degC')}, known to ${say(sheet.wishes.ambientU, 'K')}`),
    ...source,
    ...(trouble === undefined ? [] : wrap('Known trouble: ', trouble)),
    ...section(
      'Cautions',
      sheet.cautions.flatMap((c) => wrap('  ! ', `${sentence(c.hazard)}. ${c.caution}`)),
    ),
    ...section(
      'Taken for granted',
      (sheet.assumed ?? []).flatMap((a) => wrap('  - ', a)),
    ),
    ...section(
      'Steps',
      sheet.steps.flatMap((s, i) => stepLines(sheet, s, i + 1, o)),
    ),
    ...section('Series resistor', r === undefined ? [] : wrap('  ', r.working)),
    ...section(
      'Not to be had here',
      sheet.gaps.flatMap((g) => wrap('  - ', `${g.symbol}: ${g.why}${g.mend === undefined ? '' : ` ${g.mend}`}`)),
    ),
  ]
}
