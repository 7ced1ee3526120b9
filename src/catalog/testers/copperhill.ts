/** A tester that only displays results, of which nobody states the accuracy. */
export const copperhill = `# Copperhill part checker: an invented tester that only displays results.
format: germane/tester/1
id: copperhill
name: Copperhill part checker
kind: display
note: >-
  Finds the leads by itself and shows gain, base-emitter voltage and leakage at an operating point of its own.
  No accuracy is stated anywhere; the limits here are what was taken for granted.
polarities: [NPN, PNP]

ranges:
  - { id: base-emitter, fullScale: 2 V, circuit: { kind: unknown, assumed: 3 %, step: 10 mV } }
  - { id: forward, fullScale: 4.5 V, circuit: { kind: unknown, assumed: 3 %, step: 10 mV } }
  - { id: leakage, fullScale: 10 mA, circuit: { kind: unknown, assumed: 15 %, step: 10 uA } }

supplies:
  - { id: inside, kind: cells, taps: [4.5 V], cell: 4.5 V, perCell: 5 ohm, tolerance: 5 %, maxCurrent: 6 mA }

gain:
  kind: digital
  step: 1
  collectorCurrent: 2.5 mA
  collectorVoltage: 2.5 V

tests:
  - { reads: h_FE, ranges: [], supply: inside }
  - { reads: V_BE, ranges: [base-emitter], supply: inside, series: 680 ohm }
  - { reads: I_CEO, ranges: [leakage], supply: inside, series: 680 ohm }
  - { reads: V_F, ranges: [forward], supply: inside, series: 680 ohm }
  - { reads: short, ranges: [], supply: inside, series: 680 ohm }

limits: { current: 10 mA, voltage: 4.5 V }
shortLooksLike: The display says that the part is damaged, or shows a resistor of nearly nothing.
`
