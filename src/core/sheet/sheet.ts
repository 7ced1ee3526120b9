import type { Conditions, PartType } from '#core/device'
import type { ReadingKind, Tester } from '#core/tester'

/** Where the needle (or display) is expected, for a part at its published limits. */
export interface Window {
  /** In divisions of `scale`, or in the unit of the reading where there is no scale. */
  readonly unit: 'div' | 'A' | 'V' | '1'
  readonly scale?: string
  readonly min?: number
  readonly typ?: number
  readonly max?: number
  /** The same in the unit of the quantity at the part. */
  readonly value: {
    readonly min?: number
    readonly typ?: number
    readonly max?: number
    readonly unit: 'A' | 'V' | '1'
  }
  /** Which published limit or estimate the window comes from. */
  readonly from: string
}

/** What to do when a step shows something odd. */
export interface Advice {
  readonly symptom: string
  readonly advice: string
}

interface StepBase {
  readonly id: string
  /** One sentence in the second person: "Set the collector supply to 4.5 V." */
  readonly say: string
  /** The reason, in plain words. */
  readonly why: string
}

export type Step =
  | (StepBase & {
      readonly kind: 'set'
      /** `supply`, `range`, `bias`, `collector current`, `base current`, `gain range`, `test`, `polarity`, `leads`, `resistor`. */
      readonly what: string
      readonly value: number | string
      readonly unit?: string
    })
  | (StepBase & { readonly kind: 'wait'; readonly seconds: number })
  | (StepBase & {
      readonly kind: 'read'
      readonly reads: ReadingKind
      readonly point: number
      readonly range?: string
      readonly scale?: string
      readonly supply?: string
      readonly supplyV?: number
      /** Current the step sets or lets through at most, A. */
      readonly currentA?: number
      readonly conditions: Conditions
      readonly window?: Window
      /** Longest time to leave it on, s; left out when it may stay on. */
      readonly safeSeconds?: number
      readonly odd: readonly Advice[]
    })
  | (StepBase & { readonly kind: 'decide'; readonly after: string; readonly stopWhen: string })

/** Something that cannot be measured on this tester, and why. */
export interface Gap {
  readonly symbol: string
  readonly why: string
  readonly mend?: string
}

export interface Caution {
  readonly hazard: string
  readonly caution: string
  /** Where it comes from: a standard, `common practice`. */
  readonly source?: string
}

/** What the person asks of a plan. */
export interface Wishes {
  readonly ambientC: number
  readonly ambientU: number
  /** Collector current at which gain is wanted, A; left out: the published one or a gentle default. */
  readonly collectorA?: number
  readonly supplyV?: number
  /** Forward current wanted for a diode, A. */
  readonly forwardA?: number
  /** For an unknown part. */
  readonly polarity?: 'NPN' | 'PNP'
  readonly material?: 'Ge' | 'Si'
  readonly family?: 'bjt' | 'diode'
}

/** An ordered, self-contained list of steps: it carries what it was made from. */
export interface RunSheet {
  readonly format: 'germane/sheet/1'
  readonly tester: Tester
  /** Left out for an unknown part. */
  readonly partType?: PartType
  readonly wishes: Wishes
  readonly title: string
  readonly steps: readonly Step[]
  readonly gaps: readonly Gap[]
  /** What was taken for granted where a rating is not published, one sentence each. */
  readonly assumed?: readonly string[]
  readonly cautions: readonly Caution[]
  /** Series resistor worked out for a diode's forward test. */
  readonly seriesResistor?: {
    readonly ohm: number
    readonly series: 'E12' | 'E24'
    /** Power at the working current, W. */
    readonly powerW: number
    /** Rating to buy: twice what it takes with the diode shorted, W. */
    readonly ratingW: number
    /** Current it gives, A. */
    readonly currentA: number
    readonly supplyV: number
    readonly working: string
  }
}
