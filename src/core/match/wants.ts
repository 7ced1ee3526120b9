import type { Source } from '#core/quantity'
import type { MatchRequestInput } from './request.ts'

/** A common want, as a request to start from. */
export interface MatchWant {
  readonly name: string
  readonly title: string
  readonly why: string
  readonly source: Source
  readonly request: MatchRequestInput
}

/** Common wants: ordinary requests, to be used as they are or changed. Currents, voltages and ohms are in SI units. */
export const matchWants: readonly MatchWant[] = [
  {
    name: 'difference-pair',
    title: 'two parts for a difference amplifier',
    why: 'The difference of their V_BE at one current stands at the input as an offset, 1 mV for 1 mV; unlike gains draw unlike base currents.',
    source: {
      title: 'Gray and Meyer, Analysis and Design of Analog Integrated Circuits',
      where: 'offset of the emitter-coupled pair',
      standing: 'from memory',
    },
    request: {
      size: 2,
      by: [
        { name: 'V_BE', scale: 0.002, within: { absolute: 0.005 } },
        { name: 'ln(h_FE)', scale: 0.1, within: { absolute: 0.2 } },
      ],
      same: ['type'],
    },
  },
  {
    name: 'output-pair',
    title: 'two parts that share the halves of a push-pull stage',
    why: 'Halves of unlike gain are unlike in size and leave even harmonics; unlike leakage shifts the rest current of one side.',
    source: { title: 'bench usage: gains within a fifth of each other', standing: 'common practice' },
    request: {
      size: 2,
      by: [
        { name: 'h_FE', scale: 10, within: { ratio: 1.2 } },
        { name: 'I_CEO', scale: 0.0001 },
      ],
      same: ['type'],
    },
  },
  {
    name: 'complementary-pair',
    title: 'an NPN and a PNP part for a push-pull stage without transformer',
    why: 'As for an output pair; the two come from different types, so only their polarity must differ.',
    source: { title: 'bench usage: gains within a fifth of each other', standing: 'common practice' },
    request: { size: 2, across: 'polarity', by: [{ name: 'h_FE', scale: 10, within: { ratio: 1.2 } }] },
  },
  {
    name: 'diode-quad',
    title: 'four diodes for a ring or a bridge',
    why: 'What their forward drops differ by at one current is what leaks through where the ring should balance.',
    source: { title: 'bench usage: forward drops within some ten millivolts', standing: 'common practice' },
    request: {
      size: 4,
      by: [{ name: 'V_F', scale: 0.005, within: { absolute: 0.01 } }],
      objective: 'largest-distance',
      same: ['type'],
    },
  },
  {
    name: 'gain-cascade',
    title: 'three parts of rising gain for stages that follow each other',
    why: 'In direct-coupled stages the first sets the noise and wants little leakage, the last drives and wants gain; put the gains your circuit asks for in place of these.',
    source: { title: 'bench usage; the gains are an example', standing: 'common practice' },
    request: {
      size: 3,
      by: [{ name: 'h_FE', scale: 10, within: { ratio: 1.3 } }],
      places: [
        { name: 'first stage', aim: { h_FE: 70 } },
        { name: 'second stage', aim: { h_FE: 100 } },
        { name: 'third stage', aim: { h_FE: 130 } },
      ],
    },
  },
]
