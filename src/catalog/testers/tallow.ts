/** A digital multimeter with a gain socket and a diode check. */
export const tallow = `# Tallow pocket meter: an invented digital multimeter with a gain socket and a diode check.
format: germane/tester/1
id: tallow
name: Tallow pocket meter
kind: digital
note: >-
  The gain socket works at a base current of about 10 uA; nothing is said of its accuracy.
  Leakage is read with an outside supply in series with the meter.
polarities: [NPN, PNP]

ranges:
  - { id: 200 uA, fullScale: 200 uA, circuit: { kind: stated, ofReading: 1 %, counts: 2, step: 0.1 uA, burden: 200 mV } }
  - { id: 2 mA, fullScale: 2 mA, circuit: { kind: stated, ofReading: 1 %, counts: 2, step: 1 uA, burden: 200 mV } }
  - { id: 20 mA, fullScale: 20 mA, circuit: { kind: stated, ofReading: 1 %, counts: 2, step: 10 uA, burden: 200 mV } }
  - { id: 200 mA, fullScale: 200 mA, circuit: { kind: stated, ofReading: 1.5 %, counts: 2, step: 100 uA, burden: 250 mV } }
  - { id: 2 V, fullScale: 2 V, circuit: { kind: stated, ofReading: 0.5 %, counts: 1, step: 1 mV, input: 10 Mohm } }
  - { id: 20 V, fullScale: 20 V, circuit: { kind: stated, ofReading: 0.5 %, counts: 1, step: 10 mV, input: 10 Mohm } }
  - { id: diode, fullScale: 1.5 V, circuit: { kind: stated, ofReading: 1 %, counts: 3, step: 1 mV } }

supplies:
  - { id: inside, kind: cells, taps: [3 V], cell: 1.5 V, perCell: 1 ohm, tolerance: 5 %, maxCurrent: 2 mA }
  - { id: bench, kind: external, from: 0 V, to: 20 V, resistance: 1 ohm, tolerance: 1 %, maxCurrent: 200 mA }

gain:
  kind: digital
  step: 1
  baseCurrent: 10 uA
  collectorVoltage: 2.8 V

tests:
  - { reads: h_FE, ranges: [], supply: inside }
  - { reads: V_BE, ranges: [diode], supply: inside, series: 1.5 kohm }
  - { reads: V_F, ranges: [diode], supply: inside, series: 1.5 kohm }
  - { reads: V_F, ranges: [2 V, 20 V], supply: bench }
  - { reads: V_CE, ranges: [2 V, 20 V], supply: bench }
  - { reads: I_CEO, ranges: [200 uA, 2 mA, 20 mA], supply: bench, series: 1 kohm }
  - { reads: I_CBO, ranges: [200 uA, 2 mA], supply: bench, series: 1 kohm }
  - { reads: I_EBO, ranges: [200 uA, 2 mA], supply: bench, series: 1 kohm }
  - { reads: I_R, ranges: [200 uA, 2 mA], supply: bench, series: 1 kohm }
  - { reads: I_F, ranges: [2 mA, 20 mA, 200 mA], supply: bench }
  - { reads: I_C, ranges: [2 mA, 20 mA, 200 mA], supply: bench }
  - { reads: I_B, ranges: [200 uA, 2 mA], supply: bench }
  - { reads: short, ranges: [diode], supply: inside, series: 1.5 kohm }

limits: { current: 200 mA, voltage: 20 V }
shortLooksLike: The diode check shows less than 50 mV both ways round.
`
