import { type Identity, type LeadReading, type Meter, meters, parseShows, type ShownRead } from '#core/identify'

/** What lies on the bench: a part with so many leads, what reads it, and what was read. */
export interface Bench {
  readonly meter: string
  readonly leads: 2 | 3
  readonly readings: readonly LeadReading[]
}

export const emptyBench = (): Bench => ({ meter: meters[0]!.name, leads: 3, readings: [] })

export const meterOf = ({ meter }: Pick<Bench, 'meter'>): Meter => meters.find((m) => m.name === meter) ?? meters[0]!

/** A reading that is being typed. */
export interface Draft {
  /** Leads pressed so far: plus, then minus. */
  readonly leads: readonly number[]
  /** Where the third lead is joined to; empty where it is open. */
  readonly joined: '' | 'plus' | 'minus'
  /** Range the meter is set to; empty for the diode check. */
  readonly setTo: string
  readonly text: string
}

/** A draft of nothing; a needle meter has no diode check, so it begins on a range. */
export const emptyDraft = (meter: Meter): Draft => ({
  leads: [],
  joined: '',
  setTo: meter.ohmsReversed === true ? 'x100' : '',
  text: '',
})

/** A draft after a lead is pressed: the first is plus, the second minus, a third press begins again. */
export function pressed(draft: Draft, lead: number): Draft {
  if (draft.leads.length !== 1) return { ...draft, joined: '', leads: [lead] }
  return { ...draft, leads: draft.leads[0] === lead ? [] : [...draft.leads, lead] }
}

/**
 * What the meter showed, as it was typed. Resistance without a range is taken as a digital meter shows it that finds its
 * range by itself: on the lowest that holds it.
 */
export function shownIn({ text, setTo }: Pick<Draft, 'text' | 'setTo'>, meter: Meter): ShownRead {
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
export function readingIn({ leads, joined }: Draft, shown: ShownRead): LeadReading | undefined {
  const [plus, minus] = leads
  if (plus === undefined || minus === undefined || !shown.ok) return undefined
  return { plus, minus, ...(joined === '' ? {} : { joined }), shows: shown.shows }
}

const wayOf = ({ plus, minus, joined, shows }: LeadReading): string =>
  [plus, minus, joined, 'range' in shows ? shows.range : ''].join()

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
