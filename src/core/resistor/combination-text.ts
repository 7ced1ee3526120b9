import { printPlain } from '#core/quantity'
import type { Combination } from './combine.ts'

const joints = { one: '', series: ' in series with ', parallel: ' side by side with ' } as const

/** A combination in words: `12 Ω of 0.25 W in series with 1 Ω of 0.25 W`. */
export const combinationText = ({ kind, members }: Combination): string =>
  members
    .map((m) => `${printPlain(m.ohm, 'ohm')}${m.ratingW === undefined ? '' : ` of ${m.ratingW} W`}`)
    .join(joints[kind])
