import type { ReadStep, RunSheet } from '#core/sheet'
import { needle, type Range, rangesFor, type Shown, type Tester } from '#core/tester'
import { plainText } from './words.ts'

/** A mark of the face; one with a label is a long one. */
export interface Tick {
  readonly at: number
  readonly label?: string
  readonly isMajor: boolean
}

/** Where a window begins and ends on a face; an end that is left out is open. */
export interface Span {
  readonly min?: number
  readonly typ?: number
  readonly max?: number
}

/** What is looked at during a step: the scale, dial or display, laid out from `low` to `high`. */
export interface Face {
  readonly kind: 'needle' | 'dial' | 'display'
  readonly low: number
  readonly high: number
  readonly unit: 'div' | 'A' | 'V' | '1'
  /** What the labels count, in words: `divisions`, `mA`. */
  readonly says: string
  readonly ticks: readonly Tick[]
  readonly window?: Span
}

/** A range or a gain span that a reading can be taken on. */
export interface RangeChoice {
  readonly id: string
  readonly says: string
}

/** What a step can be read on, finest first; the one of the sheet among them. */
export function rangeChoices(tester: Tester, step: ReadStep): readonly RangeChoice[] {
  if (step.reads === 'h_FE')
    return tester.gain.kind === 'dial'
      ? tester.gain.spans.map((s) => ({ id: s.id, says: `${s.id}, ${s.from} to ${s.to}` }))
      : []
  if (step.reads === 'short') return []
  return [...rangesFor(tester, step.reads)]
    .sort((a, b) => a.fullScale - b.fullScale)
    .map((r) => ({ id: r.id, says: r.id }))
}

/** The face a step is read on; undefined where nothing is read off a scale. */
export function faceOf(sheet: RunSheet, step: ReadStep, rangeId: string | undefined = step.range): Face | undefined {
  const { tester, wishes } = sheet
  if (step.reads === 'short') return undefined
  if (step.reads === 'h_FE') return gainFace(tester, step, rangeId)
  const range = tester.ranges.find((r) => r.id === rangeId)
  if (range === undefined) return undefined
  return tester.kind === 'needle'
    ? needleFace(tester, step, range, wishes.ambientC)
    : displayFace(range.fullScale, range.measures === 'current' ? 'A' : 'V', windowOf(step))
}

const windowOf = (step: ReadStep): Span | undefined => {
  const v = step.window?.value
  if (v === undefined) return undefined
  return span(v, (x) => x)
}

function span(v: Span, at: (x: number) => number): Span {
  return {
    ...(v.min === undefined ? {} : { min: at(v.min) }),
    ...(v.typ === undefined ? {} : { typ: at(v.typ) }),
    ...(v.max === undefined ? {} : { max: at(v.max) }),
  }
}

/** Steps of a scale that people count by. */
const counts = [1, 2, 5, 10, 20, 25, 50, 100]

/** The least step with no more than `most` steps. */
const stepFor = (length: number, most: number): number =>
  counts.find((c) => length / c <= most) ?? niceStep(length, most)

function niceStep(length: number, most: number): number {
  const rough = length / most
  const power = 10 ** Math.floor(Math.log10(rough))
  return (([1, 2, 5, 10] as const).find((m) => m * power >= rough) ?? 10) * power
}

function needleFace(tester: Tester, step: ReadStep, range: Range, ambientC: number): Face {
  const at = (x: number): number => needle(tester, range, x, ambientC).divisions
  const scale = tester.scales.find((s) => s.id === (step.scale ?? range.scale)) ?? tester.scales[0]
  const high = scale?.divisions ?? 100
  const low = tester.movement?.zero === 'centre' ? -high : 0
  const major = stepFor(high, 5)
  const minor = high <= 60 ? 1 : stepFor(high, 50)
  const window = step.window === undefined ? undefined : span(step.window.value, at)
  return {
    kind: 'needle',
    low,
    high,
    unit: 'div',
    says: 'divisions',
    ticks: ticksOf(low, high, { minor, major }, plainText),
    ...(window === undefined ? {} : { window }),
  }
}

function ticksOf(
  low: number,
  high: number,
  steps: { readonly minor: number; readonly major: number },
  label: (x: number) => string,
): readonly Tick[] {
  const count = Math.round((high - low) / steps.minor)
  return Array.from({ length: count + 1 }, (_, i) => {
    const at = low + i * steps.minor
    const turns = at / steps.major
    const isMajor = Math.abs(turns - Math.round(turns)) < 1e-9
    return { at, isMajor, ...(isMajor ? { label: label(Math.round(turns) * steps.major) } : {}) }
  })
}

function gainFace(tester: Tester, step: ReadStep, spanId: string | undefined): Face {
  const window = windowOf(step)
  if (tester.gain.kind !== 'dial') {
    const most = window?.max ?? 2 * (window?.typ ?? window?.min ?? 250)
    return displayFace(niceStep(most * 1.25, 1), '1', window)
  }
  const { spans } = tester.gain
  const on = spans.find((s) => s.id === spanId) ?? spans[0]
  const [low, high] = [on?.from ?? 0, on?.to ?? 1000]
  const major = niceStep(high - low, 7)
  const first = Math.ceil(low / major) * major
  return {
    kind: 'dial',
    low,
    high,
    unit: '1',
    says: 'gain',
    ticks: [
      { at: low, label: plainText(low), isMajor: true },
      ...ticksOf(first, high, { minor: major / 5, major }, plainText).filter((t) => t.at > low + 1e-9),
    ].map((t) => (t.label !== undefined && t.at !== low && t.at - low < major / 2 ? { at: t.at, isMajor: true } : t)),
    ...(window === undefined ? {} : { window }),
  }
}

/** Prefixes of a display's labels. */
const prefixes: readonly (readonly [number, string])[] = [
  [1, ''],
  [1e-3, 'm'],
  [1e-6, 'µ'],
  [1e-9, 'n'],
]

function displayFace(fullScale: number, unit: 'A' | 'V' | '1', window: Span | undefined): Face {
  const [power, letter] = unit === '1' ? ([1, ''] as const) : (prefixes.find(([p]) => fullScale >= p) ?? prefixes[3]!)
  const major = niceStep(fullScale / power, 5) * power
  return {
    kind: 'display',
    low: 0,
    high: fullScale,
    unit,
    says: unit === '1' ? 'gain' : `${letter}${unit}`,
    ticks: ticksOf(0, fullScale, { minor: major / 5, major }, (x) => plainText(x / power)),
    ...(window === undefined ? {} : { window }),
  }
}

/** Where something shown lies on the face; undefined where it lies nowhere on it. */
export function placeOf(sheet: RunSheet, step: ReadStep, face: Face, rangeId: string | undefined, shown: Shown) {
  switch (shown.kind) {
    case 'state':
      return shown.state === 'over' ? face.high : undefined
    case 'deflection':
      return face.unit === 'div' ? shown.divisions : undefined
    case 'value': {
      const range = sheet.tester.ranges.find((r) => r.id === (rangeId ?? step.range))
      if (face.unit !== 'div') return shown.value
      return range === undefined ? undefined : needle(sheet.tester, range, shown.value, sheet.wishes.ambientC).divisions
    }
  }
}

/** How a place lies to the window, in words; undefined where there is nothing to say. */
export function againstWindow(
  face: Face,
  at: number,
): 'as expected' | 'lower than expected' | 'higher than expected' | undefined {
  const w = face.window
  if (w === undefined || (w.min === undefined && w.max === undefined)) return undefined
  const slack = 0.004 * (face.high - face.low)
  const isSet = w.min !== undefined && w.min === w.max
  const give = isSet ? 0.03 * (face.high - face.low) : slack
  if (w.min !== undefined && at < w.min - give) return 'lower than expected'
  if (w.max !== undefined && at > w.max + give) return 'higher than expected'
  return 'as expected'
}
