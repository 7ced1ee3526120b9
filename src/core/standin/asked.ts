import type { Unit } from '#core/quantity'
import { valueText, type Wanted } from './known.ts'
import type { Need } from './need.ts'

/** One number that is asked for, as a line of a list. */
export interface Asked {
  /** As the check of it is called. */
  readonly what: string
  readonly symbol: string
  readonly unit: Unit
  readonly bound: 'at least' | 'at most'
  readonly value: number
  /** Condition and reason, as a clause. */
  readonly why: string
}

/** All that is asked for, in the order of the checks. */
export function askedFor(n: Need): readonly Asked[] {
  const gainAt = n.gain === undefined ? '' : `at ${valueText(n.gain.atA, 'A')}, `
  const hot = `in air of ${n.hottestC} °C, `
  const isDiode = n.family === 'diode'
  return [
    ...line('voltage', 'V_CE', 'V', 'at least', n.collectorV),
    ...line('collector-base voltage', 'V_CB', 'V', 'at least', n.collectorBaseV),
    ...line('voltage', 'V_R', 'V', 'at least', n.reverseV),
    ...line('emitter-base voltage', 'V_EB', 'V', 'at least', n.emitterV),
    ...line('current', isDiode ? 'I_F' : 'I_C', 'A', 'at least', n.currentA),
    ...line('power', 'P', 'W', 'at least', n.airW, hot),
    ...line('power on a heat sink', 'P', 'W', 'at least', n.caseW, `with its case at ${n.caseW?.caseC} °C, `),
    ...line('gain', 'h_FE', '1', 'at least', n.gain?.least, gainAt),
    ...line('highest gain', 'h_FE', '1', 'at most', n.gain?.most, gainAt),
    ...line(
      'frequency',
      n.cutoff?.symbol ?? '',
      'Hz',
      'at least',
      n.cutoff && { value: n.cutoff.hz, why: n.cutoff.why },
    ),
    ...line('leakage', isDiode ? 'I_R' : 'I_CBO', 'A', 'at most', n.leakageA, hot),
    ...line('recovery', 't_rr', 's', 'at most', n.recoveryS),
  ]
}

const line = (
  what: string,
  symbol: string,
  unit: Unit,
  bound: Asked['bound'],
  wanted: Wanted | undefined,
  condition = '',
): readonly Asked[] =>
  wanted === undefined ? [] : [{ what, symbol, unit, bound, value: wanted.value, why: `${condition}${wanted.why}` }]
