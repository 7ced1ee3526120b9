import {
  type ExtraTest,
  extraTests,
  type IdentifiedAs,
  type Identity,
  type LeadReading,
  type Meter,
  meters,
  type NextTest,
  parseShows,
  type ShownRead,
} from '#core/identify'

/** What lies on the bench: a part with so many leads, what reads it, and what was read. */
export interface Bench {
  readonly meter: string
  readonly leads: 2 | 3
  readonly readings: readonly LeadReading[]
  /** Tests that can be made beside those of the meter; left out, none. */
  readonly also?: readonly ExtraTest[]
}

export const emptyBench = (): Bench => ({ meter: meters[0]!.name, leads: 3, readings: [] })

export const meterOf = ({ meter }: Pick<Bench, 'meter'>): Meter => meters.find((m) => m.name === meter) ?? meters[0]!

/** A reading that is being typed. */
export interface Draft {
  /** Leads pressed so far: plus, then minus. */
  readonly leads: readonly number[]
  /** Where the third lead is joined to; empty where it is open. */
  readonly joined: '' | 'plus' | 'minus'
  /** Range the meter is set to, or the test it is no reading of; empty for the diode check. */
  readonly setTo: string
  /** The part is held between two fingers. */
  readonly isWarm: boolean
  readonly text: string
}

/** The test that a draft is of, where it is none of the meter's own. */
export const testIn = ({ setTo }: Pick<Draft, 'setTo'>): ExtraTest | undefined => extraTests.find((t) => t === setTo)

/** A draft of nothing; a needle meter has no diode check, so it begins on a range. */
export const emptyDraft = (meter: Meter): Draft => ({
  leads: [],
  joined: '',
  setTo: meter.ohmsReversed === true ? 'x100' : '',
  isWarm: false,
  text: '',
})

/** Ohms on a range, perhaps with the part held warm. */
export const isOnOhms = (draft: Pick<Draft, 'setTo'>): boolean => draft.setTo !== '' && testIn(draft) === undefined

/** A draft that is set to another range or test: a gain has a polarity, and only resistance is read warm. */
export function settingTo(draft: Draft, setTo: string): Draft {
  const test = testIn({ setTo })
  const kept = testIn(draft) === 'gain' || test === 'breakdown' ? '' : draft.joined
  const joined = test === 'gain' ? draft.joined || 'plus' : kept
  return { ...draft, setTo, joined, isWarm: draft.isWarm && isOnOhms({ setTo }) }
}

/** A draft of the test that is offered. */
export const asked = ({ plus, minus, joined, range, warmed, test }: NextTest, meter: Meter): Draft => ({
  leads: [plus, minus],
  joined: joined ?? '',
  setTo: test ?? range ?? emptyDraft(meter).setTo,
  isWarm: warmed === true,
  text: '',
})

/** A draft after a lead is pressed: the first is plus, the second minus, a third press begins again. */
export function pressed(draft: Draft, lead: number): Draft {
  const joined = testIn(draft) === 'gain' ? draft.joined : ''
  if (draft.leads.length !== 1) return { ...draft, joined, leads: [lead] }
  return { ...draft, leads: draft.leads[0] === lead ? [] : [...draft.leads, lead] }
}

/**
 * What the meter showed, as it was typed. Resistance without a range is taken as a digital meter shows it that finds its
 * range by itself: on the lowest that holds it.
 */
export function shownIn({ text, setTo }: Pick<Draft, 'text' | 'setTo'>, meter: Meter): ShownRead {
  const test = testIn({ setTo })
  if (test === 'gain') return parseShows(/^\s*(h|gain)/i.test(text) ? text : `h_FE ${text}`, meter)
  if (test === 'breakdown') return parseShows(/\sfrom\s/i.test(text) ? text : `${text} from 12 V`, meter)
  const on = (range: string): ShownRead => parseShows(`${text} on ${range}`, meter)
  if (setTo !== '' && !/\s(on|at)\s/i.test(text)) return on(setTo)
  const plain = parseShows(text, meter)
  if (plain.ok || plain.lacksRange !== true || meter.ohmsReversed === true) return plain
  const holds = meter.ohms
    .map((range) => ({ range, read: on(range.name) }))
    .find(({ range, read }) => read.ok && read.shows.kind === 'ohms' && read.shows.ohm <= range.topOhm)
  return holds?.read ?? plain
}

/** The reading a draft makes; nothing while it is not whole. */
export function readingIn({ leads, joined, isWarm }: Draft, shown: ShownRead): LeadReading | undefined {
  const [plus, minus] = leads
  if (plus === undefined || minus === undefined || !shown.ok) return undefined
  const { shows } = shown
  const isOhms = 'range' in shows && shows.range !== undefined
  if (shows.kind === 'gain' && joined === '') return undefined
  const warmed = isWarm && isOhms
  return { plus, minus, ...(joined === '' ? {} : { joined }), ...(warmed ? { warmed } : {}), shows }
}

const wayOf = ({ plus, minus, joined, warmed, shows }: LeadReading): string => {
  const kind = extraTests.find((t) => t === shows.kind) ?? ''
  return [plus, minus, joined, warmed, kind, 'range' in shows ? shows.range : ''].join()
}

/** Readings with one more; one taken again in the same way takes the place of the one before. */
export const withReading = (readings: readonly LeadReading[], one: LeadReading): readonly LeadReading[] => [
  ...readings.filter((r) => wayOf(r) !== wayOf(one)),
  one,
]

/** Marks of leads with a real minus: `2+ 1−`. */
export const withSigns = (text: string): string => text.replaceAll(/(\d\+ \d)-/g, '$1−')

/** What a lead most likely is, whatever kind of part it belongs to. */
export interface LeadName {
  readonly name: string
  readonly probability: number
}

/** What each lead is by the best answer, and the probability of that over all answers. */
export function leadNames({ hypotheses }: Identity): Readonly<Record<string, LeadName>> {
  return Object.fromEntries(
    Object.entries(hypotheses[0]?.leads ?? {}).map(([lead, name]) => {
      const agreeing = hypotheses.filter((h) => h.leads[lead] === name)
      return [lead, { name, probability: agreeing.reduce((sum, h) => sum + h.probability, 0) }]
    }),
  )
}

/** Above this a part is drawn as what it is. */
const drawnFrom = 0.9

/** What is written on the drawn part: `NPN`, `N JFET`, or a question mark while one is not sure of it. */
export function bodyText({ hypotheses, contradiction }: Pick<Identity, 'hypotheses' | 'contradiction'>): string {
  const [best] = hypotheses
  const kind = hypotheses.reduce((sum, h) => (h.text === best?.text ? sum + h.probability : sum), 0)
  return best === undefined || contradiction !== undefined || kind < drawnFrom ? '?' : shortKind(best)
}

function shortKind({ family, polarity, fault }: IdentifiedAs): string {
  if (fault !== 'none') return '×'
  if (family === 'BJT') return polarity ?? family
  return ['N', 'P'].includes(polarity ?? '') && family !== 'UJT' ? `${polarity} ${family}` : family
}
