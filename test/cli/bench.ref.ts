/** A meter whose readings are simple numbers: 1 % of reading and one last digit, nothing else. Invented. */
export const meter = `format: germane/tester/1
id: twin-meter
name: Twin meter
kind: digital
polarities: [NPN, PNP]
ranges:
  - { id: 200 uA, fullScale: 200 uA, circuit: { kind: stated, ofReading: 1 %, step: 0.1 uA } }
  - { id: 20 mA, fullScale: 20 mA, circuit: { kind: stated, ofReading: 1 %, step: 10 uA } }
supplies:
  - { id: bench, kind: external, from: 1 V, to: 12 V, resistance: 0 ohm, tolerance: 0.01, maxCurrent: 100 mA }
gain: { kind: ratio, maxBase: 1 mA, collector: [0.1 mA, 20 mA] }
tests:
  - { reads: short, ranges: [20 mA], supply: bench, series: 470 ohm }
  - { reads: I_CEO, ranges: [200 uA, 20 mA], supply: bench }
  - { reads: I_C, ranges: [20 mA], supply: bench }
  - { reads: I_B, ranges: [200 uA], supply: bench }
limits: { current: 100 mA, voltage: 12 V }
`

/** A type with one two-sided and one one-sided limit. Invented. */
export const ownType = `types:
  - type: HX-40
    family: bjt
    polarity: NPN
    material: Si
    ratings: { V_CEO: 30 V, I_C: 100 mA, T_Jmax: 150 degC, power: 300 mW at 25 degC ambient }
    limits:
      - { symbol: h_FE, min: 80, max: 120, at: { I_C: 10 mA, V_CE: 5 V } }
      - { symbol: I_CEO, max: 50 uA, at: { V_CE: 5 V, T: 25 degC } }
    source: Own sheet 1
`

const header = 'part,reads,shown,range,point,supply,ambient\n'

/** One part: leakage and gain at 5 V and 25 degC. */
export const readingsOf = (tag: string, leakage: string, collector: string, base: string): string =>
  [
    `${tag},short,clear,,,,25 degC`,
    `${tag},I_CEO,${leakage},${leakage.endsWith('uA') ? '200 uA' : '20 mA'},1,5 V,25 degC`,
    `${tag},I_C,${collector},20 mA,2,5 V,25 degC`,
    `${tag},I_B,${base},200 uA,2,5 V,25 degC\n`,
  ].join('\n')

export const fileOf = (...parts: readonly string[]): string => header + parts.join('')
