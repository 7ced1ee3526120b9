import { type Limit, type PartType, provenanceText } from '#core/device'
import type { Verdict, VerdictWord } from '#core/judge'
import { derive, type Formula, leaf, limitTerm, type Quantity, term, type Unit } from '#core/quantity'
import { allFormulas, type Parameter, type PartResult } from '#core/reduce'
import type { Reading } from '#core/tester'
import type { ReportInput } from '#report/model'
import { sampleTester, sampleTypes } from './sample-tester.ts'

const movement = (value: number) => limitTerm('movement', 'class 1.5 movement', 0.015 * value * 1.3)
const pointer = (part: string, what: string, value: number) =>
  term(`${part}/${what}/pointer`, { label: 'reading the needle to a fifth of a division', u: 0.004 * value, dof: 12 })
const shunt = (range: string, value: number) =>
  limitTerm(`shunt/${range}`, `shunt of range ${range}, 1 %`, 0.01 * value)

/** A current as read off the sample tester. */
export const current = (part: string, what: string, value: number, seen: string, range: string): Quantity<'A'> =>
  leaf(value, 'A', { kind: 'read', what, seen }, [movement(value), shunt(range, value), pointer(part, what, value)])

const gainFormula = allFormulas.get('reduce/gain-less-leakage') as unknown as Formula<
  { readonly collector: 'A'; readonly leakage: 'A'; readonly base: 'A' },
  '1'
>

const parameter = <U extends Unit>(
  part: string,
  type: string,
  symbol: string,
  quantity: Quantity<U>,
  conditions: Parameter['conditions'],
  more: Partial<Parameter> = {},
): Parameter => ({
  part,
  type,
  symbol,
  quantity,
  conditions,
  temperatureC: 21.5,
  temperatureU: 0.5,
  points: [1],
  standing: 'measured',
  doubts: [],
  ...more,
})

/** A transistor of the lot, from its three currents. */
export function transistor(part: string, type: string, [ic, iceo, ib]: readonly [number, number, number]): PartResult {
  const collector = current(part, 'collector current', ic, `${(ic * 1e3).toFixed(2)} mA`, '25 mA')
  const leakage = current(part, 'leakage, base open', iceo, `${(iceo * 1e6).toFixed(0)} uA`, '1 mA')
  const base = current(part, 'base current', ib, `${(ib * 1e6).toFixed(1)} uA`, '250 uA')
  const gain = derive(gainFormula, { collector, leakage, base })
  return {
    part,
    type,
    state: 'measured',
    doubts: [],
    parameters: [
      parameter(part, type, 'h_FE', gain, { I_C: ic, V_CE: 4.5 }),
      parameter(part, type, 'I_CEO', leakage, { V_CE: 4.5 }),
      parameter(
        part,
        type,
        'V_BE',
        leaf(0.211 + ib * 120, 'V', { kind: 'read', what: 'base voltage', seen: '0.22 V' }, [
          limitTerm('voltmeter', 'voltmeter, 1 % of reading and 1 digit', 0.004),
        ]),
        { I_C: ic, V_CE: 4.5 },
      ),
    ],
  }
}

const rule = { kind: 'guarded', probability: 0.95 } as const

/** A verdict of the sample: probability and sentences are given, not worked out here. */
export function held(p: Parameter, limit: Limit, verdict: VerdictWord, probability: number, why: string): Verdict {
  return {
    part: p.part,
    symbol: p.symbol,
    limit,
    conditions: p.conditions,
    verdict,
    ...(verdict === 'not comparable' ? {} : { probability }),
    why,
    ...(verdict === 'undecided'
      ? { settle: 'Read the base current on the 100 uA range; half the doubt is enough to decide.' }
      : {}),
    rule,
    source: provenanceText((sampleTypes[p.type!] as PartType).provenance),
  }
}

const gainLimit = (type: string): Limit => sampleTypes[type]!.limits[0]!

const gainWhy = 'Gain changes little from here to the published collector current; 3 % was added for it.'

function gainVerdict(r: PartResult, verdict: VerdictWord, probability: number): Verdict {
  return held(r.parameters[0]!, gainLimit(r.type!), verdict, probability, gainWhy)
}

function diode(part: string, forward: number, reverse: number): PartResult {
  const type = 'OA81'
  return {
    part,
    type,
    state: 'measured',
    doubts: [],
    parameters: [
      parameter(
        part,
        type,
        'V_F',
        leaf(forward, 'V', { kind: 'read', what: 'forward voltage', seen: `${forward} V` }, [
          limitTerm('voltmeter', 'voltmeter, 1 % of reading and 1 digit', 0.006),
        ]),
        { I_F: 0.002 },
      ),
      parameter(part, type, 'I_R', current(part, 'reverse leakage', reverse, '14 uA', '50 uA'), { V_R: 9 }),
    ],
  }
}

const good = (
  [
    ['L-01', 'AC128', [0.01012, 0.00021, 8.9e-5]],
    ['L-02', 'AC128', [0.01002, 0.00034, 1.16e-4]],
    ['L-03', 'AC128', [0.00998, 0.00019, 7.4e-5]],
    ['L-04', 'AC128', [0.0101, 0.00042, 6.9e-5]],
    ['L-05', 'ASY27', [0.01, 0.000045, 1.02e-4]],
    ['L-06', 'ASY27', [0.00995, 0.00006, 8.2e-5]],
  ] as const
).map(([part, type, currents]) => transistor(part, type, currents))

const weak = transistor('L-07', 'AC128', [0.0099, 0.00055, 2.9e-4])
const leaky: PartResult = {
  ...transistor('L-08', 'AC128', [0.0103, 0.0041, 6.4e-5]),
  doubts: [
    {
      code: 'leakage-heavy',
      say: 'I_CEO is 40 % of I_C: the part is leaky, and its gain is known badly. Let it cool and read again.',
      weight: 'notice',
    },
  ],
}
const near = transistor('L-09', 'AC128', [0.01004, 0.00031, 1.61e-4])
const shorted: PartResult = { part: 'L-10', type: 'ASY27', state: 'short', parameters: [], doubts: [] }
const diodes = [diode('D-1', 0.34, 6.2e-6), diode('D-2', 0.37, 1.9e-5)]
const unknown: PartResult = (() => {
  const made = transistor('L-11', 'AC128', [0.0101, 0.00012, 9.7e-5])
  const { type: _, ...rest } = made
  return { ...rest, parameters: made.parameters.map(({ type: __, ...p }) => p) }
})()

const diodeVerdict = (r: PartResult, at: number, verdict: VerdictWord, probability: number): Verdict =>
  held(r.parameters[at]!, sampleTypes.OA81!.limits[at]!, verdict, probability, 'Read at the published condition.')

const readingsOf = (part: string, type: string): readonly Reading[] => {
  const common = { part, type, point: 1, ambientC: 21.5, ambientU: 0.5, at: '1968-11-24T19:40' } as const
  return [
    { ...common, reads: 'short', shown: { kind: 'state', state: 'clear' }, seen: 'clear' },
    {
      ...common,
      reads: 'I_CEO',
      shown: { kind: 'value', value: 0.00021, unit: 'A' },
      seen: '0.21 mA',
      range: '1 mA',
      scale: 'upper',
      supplyV: 4.5,
    },
    {
      ...common,
      reads: 'I_C',
      shown: { kind: 'deflection', divisions: 20.2 },
      seen: '20.2 div',
      range: '25 mA',
      supplyV: 4.5,
    },
    {
      ...common,
      reads: 'I_B',
      shown: { kind: 'deflection', divisions: 17.8 },
      seen: '17.8 div',
      range: '250 uA',
      note: 'set again after the range change',
    },
  ]
}

/** An invented lot: good and bad, germanium transistors and diodes, one shorted, one undecided, one of unknown type. */
export const sampleLot: ReportInput = {
  title: 'Spares for the Larkspur portable',
  printedAt: '1968-11-25',
  tester: sampleTester,
  partTypes: sampleTypes,
  results: [...good, weak, leaky, near, shorted, unknown, ...diodes],
  verdicts: [
    ...good.map((r, i) => gainVerdict(r, 'conforms', [0.9996, 0.996, 0.9996, 0.985, 0.9995, 0.9991][i]!)),
    gainVerdict(weak, 'does not conform', 0.0002),
    gainVerdict(leaky, 'conforms', 0.972),
    held(
      leaky.parameters[1]!,
      { symbol: 'I_CEO', max: 1.5e-3, unit: 'A', at: { V_CE: 6, T: 25 } },
      'does not conform',
      0.0001,
      'Carried from 4.5 V to 6 V.',
    ),
    gainVerdict(near, 'undecided', 0.58),
    ...diodes.map((r, i) => diodeVerdict(r, 0, 'conforms', [0.9999, 0.9998][i]!)),
    diodeVerdict(diodes[0]!, 1, 'conforms', 0.998),
    diodeVerdict(diodes[1]!, 1, 'not comparable', 0),
  ],
  notes: ['Taken from the drawer under the window. The set hums; the pair in the output stage was warm to the touch.'],
  readings: [...readingsOf('L-01', 'AC128'), ...readingsOf('L-09', 'AC128')],
}

/** The undecided part of the lot, alone. */
export const samplePart: ReportInput = {
  ...sampleLot,
  title: 'L-09, AC128',
  results: [near],
  verdicts: sampleLot.verdicts.filter((v) => v.part === 'L-09'),
  readings: readingsOf('L-09', 'AC128'),
}
