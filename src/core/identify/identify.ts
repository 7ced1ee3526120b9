import {
  baseEvidence,
  cannotTell,
  contradiction,
  evidenceFor,
  orderEvidence,
  type RuledOut,
  ruledOut,
} from './evidence.ts'
import { faultText } from './fault-kind.ts'
import { kindText, leadMap } from './hypothesis.ts'
import type { LeadReading, Meter } from './meter.ts'
import { type NextTest, nextTest, sureDefault } from './next-test.ts'
import type { ExtraTest } from './trial.ts'
import { type Weighed, weigh } from './weigh.ts'

/** One thing that a part may be. */
export interface IdentifiedAs {
  readonly family: string
  readonly technology?: string
  readonly polarity?: string
  /** Enhancement or depletion, of a MOSFET. */
  readonly mode?: string
  readonly extras?: readonly string[]
  /** `none`, or what is wrong with it. */
  readonly fault: string
  /** Electrode at each lead, counted from 1; `D or S` where no reading of this kind tells. */
  readonly leads: Readonly<Record<string, string>>
  readonly probability: number
  readonly text: string
}

/** What a part is, by its readings. */
export interface Identity {
  readonly leads: 2 | 3
  /** Likeliest first. */
  readonly hypotheses: readonly IdentifiedAs[]
  /** Probability that it is none of them, or that a reading is wrong. */
  readonly somethingElse: number
  readonly evidence: readonly string[]
  readonly ruledOut: readonly RuledOut[]
  readonly cannotTell: readonly string[]
  readonly contradiction?: string
  /** Left out where the answer is sure enough, or no test tells more. */
  readonly next?: NextTest
}

export interface IdentifyOptions {
  readonly meter: Meter
  /** How many leads the part has, where the readings do not name all. */
  readonly leads?: number
  /** How sure the answer has to be before no further test is asked for. */
  readonly sure?: number
  /** Tests that may be offered beside those of the meter: `gain`, and `breakdown` where it may cost a little gain. */
  readonly also?: readonly ExtraTest[]
}

export const identifyDefaults = { sure: sureDefault, leastShown: 1e-3, mostShown: 12 } as const

function identifiedAs({ hypothesis, probability }: Weighed): IdentifiedAs {
  const { kind, fault } = hypothesis.condition
  const { family, polarity } = hypothesis.named
  return {
    family,
    ...(kind.technology === undefined ? {} : { technology: kind.technology }),
    ...(polarity === undefined ? {} : { polarity }),
    ...(kind.mode === undefined ? {} : { mode: kind.mode }),
    ...(kind.extras === undefined ? {} : { extras: kind.extras }),
    fault: faultText(fault),
    leads: leadMap(hypothesis),
    probability,
    text: kindText(hypothesis),
  }
}

/**
 * Says what an unmarked part is, which lead is which, whether it is good, why, and what to try next.
 *
 * @example identifyPart([{ plus: 1, minus: 2, shows: { kind: 'volts', volts: 0.61 } }], { meter: digitalMeter, leads: 3 })
 */
export function identifyPart(readings: readonly LeadReading[], options: IdentifyOptions): Identity {
  const { meter, leads, sure = identifyDefaults.sure, also = [] } = options
  const posterior = weigh(readings, meter, leads)
  const best = posterior.ranked[0]
  const isSure = best !== undefined && best.probability >= sure
  const next = isSure ? undefined : nextTest(posterior, meter, { also, sure })
  const against = contradiction(readings, posterior, meter)
  return {
    leads: posterior.leads,
    hypotheses: posterior.ranked
      .filter((w) => w.probability > identifyDefaults.leastShown)
      .slice(0, identifyDefaults.mostShown)
      .map(identifiedAs),
    somethingElse: posterior.strange,
    evidence:
      best === undefined || readings.length === 0
        ? []
        : [
            ...baseEvidence(best.hypothesis, readings),
            ...evidenceFor(best.hypothesis, posterior, readings, meter),
            ...orderEvidence(posterior.ranked),
          ],
    ruledOut: ruledOut(readings, posterior, meter),
    cannotTell: cannotTell(posterior.ranked),
    ...(against === undefined ? {} : { contradiction: against }),
    ...(next === undefined ? {} : { next }),
  }
}
