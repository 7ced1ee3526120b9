/** A needle tester with a universal shunt; base and collector current are read one after the other. */
export const marlpit = `# Marlpit ring tester: an invented needle tester with a universal shunt.
format: germane/tester/1
id: marlpit
name: Marlpit ring tester
kind: needle
note: >-
  One movement with a universal shunt, switched into the collector or the base lead. There is no gain dial: read I_C and
  I_B at one setting, and set the collector current again after each change of range.
polarities: [NPN, PNP]

movement: { fullScale: 50 uA, coil: 2 kohm, class: 1.5 %, at: 20 degC, copper: 0.2 %/K, zero: left, readable: 1/5 }

scales:
  - { id: "50", divisions: 50, end: 50 }
  - { id: "15", divisions: 30, end: 15 }

# Full scale is 50 uA x (2 kohm + 8 kohm) / tap = 0.5 V / tap.
ranges:
  - { id: 150 uA, fullScale: 150 uA, scale: "15", circuit: { kind: universal, ring: 8 kohm, tap: 3.333 kohm, tolerance: 0.5 % } }
  - { id: 500 uA, fullScale: 500 uA, scale: "50", circuit: { kind: universal, ring: 8 kohm, tap: 1 kohm, tolerance: 0.5 % } }
  - { id: 1.5 mA, fullScale: 1.5 mA, scale: "15", circuit: { kind: universal, ring: 8 kohm, tap: 333.3 ohm, tolerance: 0.5 % } }
  - { id: 5 mA, fullScale: 5 mA, scale: "50", circuit: { kind: universal, ring: 8 kohm, tap: 100 ohm, tolerance: 0.5 % } }
  - { id: 15 mA, fullScale: 15 mA, scale: "15", circuit: { kind: universal, ring: 8 kohm, tap: 33.33 ohm, tolerance: 0.5 % } }
  - { id: 50 mA, fullScale: 50 mA, scale: "50", circuit: { kind: universal, ring: 8 kohm, tap: 10 ohm, tolerance: 0.5 % } }
  - { id: 150 mA, fullScale: 150 mA, scale: "15", circuit: { kind: universal, ring: 8 kohm, tap: 3.333 ohm, tolerance: 1 % } }
  - { id: 500 mA, fullScale: 500 mA, scale: "50", circuit: { kind: universal, ring: 8 kohm, tap: 1 ohm, tolerance: 1 % } }
  - { id: 1.5 V, fullScale: 1.5 V, scale: "15", circuit: { kind: multiplier, series: 28 kohm, tolerance: 1 % } }
  - { id: 15 V, fullScale: 15 V, scale: "15", circuit: { kind: multiplier, series: 298 kohm, tolerance: 1 % } }

supplies:
  - { id: cells, kind: cells, taps: [1.5 V, 3 V, 4.5 V, 6 V], cell: 1.5 V, perCell: 0.3 ohm, tolerance: 3 %, maxCurrent: 500 mA }

gain: { kind: ratio, maxBase: 10 mA, collector: [0.1 mA, 400 mA] }

tests:
  - { reads: short, ranges: [150 mA], supply: cells, series: 33 ohm }
  - { reads: I_CEO, ranges: [150 uA, 500 uA, 1.5 mA, 5 mA, 15 mA], supply: cells, series: 68 ohm }
  - { reads: I_CBO, ranges: [150 uA, 500 uA, 1.5 mA], supply: cells, series: 68 ohm }
  - { reads: I_EBO, ranges: [150 uA, 500 uA, 1.5 mA], supply: cells, series: 68 ohm }
  - { reads: I_C, ranges: [500 uA, 1.5 mA, 5 mA, 15 mA, 50 mA, 150 mA, 500 mA], supply: cells }
  - { reads: I_B, ranges: [150 uA, 500 uA, 1.5 mA, 5 mA, 15 mA], supply: cells }
  - { reads: V_BE, ranges: [1.5 V], supply: cells }
  - { reads: V_CE, ranges: [1.5 V, 15 V], supply: cells }
  - { reads: V_CE(sat), ranges: [1.5 V], supply: cells }
  - { reads: V_F, ranges: [1.5 V, 15 V], supply: cells }
  - { reads: I_F, ranges: [1.5 mA, 5 mA, 15 mA, 50 mA, 150 mA], supply: cells }
  - { reads: I_R, ranges: [150 uA, 500 uA, 1.5 mA], supply: cells, series: 68 ohm }

limits: { current: 500 mA, voltage: 15 V }
shortLooksLike: At the short check the needle stands near full scale.
thermometer: 1 K
`
