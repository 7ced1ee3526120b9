/** An older needle tester: shunts of its own for each range, cells with taps, inputs for outside supplies, a gain dial. */
export const larkfield = `# Larkfield bench tester: an invented instrument, to begin with and to copy from.
format: germane/tester/1
id: larkfield
name: Larkfield bench tester
kind: needle
note: >-
  Needle tester with a rotary range switch, cells inside and two pairs of sockets for outside supplies.
  The gain dial is turned until the needle stands at the null mark.
polarities: [NPN, PNP]

movement:
  fullScale: 100 uA
  coil: 1.1 kohm
  class: 2 %
  at: 20 degC
  copper: 0.39 %/K
  zero: left
  readable: 1/5

scales:
  - { id: "100", divisions: 50, end: 100 }
  - { id: "30", divisions: 30, end: 30 }

ranges:
  - { id: 100 uA, fullScale: 100 uA, scale: "100", circuit: movement }
  - { id: 300 uA, fullScale: 300 uA, scale: "30", circuit: { kind: shunt, shunt: 550 ohm, tolerance: 1 % } }
  - { id: 1 mA, fullScale: 1 mA, scale: "100", circuit: { kind: shunt, shunt: 122 ohm, tolerance: 1 % } }
  - { id: 3 mA, fullScale: 3 mA, scale: "30", circuit: { kind: shunt, shunt: 37.9 ohm, tolerance: 1 % } }
  - { id: 10 mA, fullScale: 10 mA, scale: "100", circuit: { kind: shunt, shunt: 11.1 ohm, tolerance: 1 % } }
  - id: 30 mA
    fullScale: 30 mA
    scale: "30"
    circuit: { kind: shunt, shunt: 3.68 ohm, tolerance: 1 %, asFound: 3.71 ohm +- 0.01 ohm }
  - id: 100 mA
    fullScale: 100 mA
    scale: "100"
    circuit: { kind: shunt, shunt: 1.10 ohm, tolerance: 1 %, contact: 1 milliohm }
  - id: 300 mA
    fullScale: 300 mA
    scale: "30"
    circuit: { kind: shunt, shunt: 0.366 ohm, tolerance: 1 %, contact: 1 milliohm }
  - id: 1 A
    fullScale: 1 A
    scale: "100"
    circuit: { kind: shunt, shunt: 0.109 ohm, tolerance: 2 %, contact: 1 milliohm }
  - id: 3 A
    fullScale: 3 A
    scale: "30"
    circuit: { kind: shunt, shunt: 0.0357 ohm, tolerance: 2 %, contact: 1 milliohm }
  - { id: 1 V, fullScale: 1 V, scale: "100", circuit: { kind: multiplier, series: 8.9 kohm, tolerance: 1 % } }
  - { id: 10 V, fullScale: 10 V, scale: "100", circuit: { kind: multiplier, series: 98.9 kohm, tolerance: 1 % } }

supplies:
  - id: collector
    kind: cells
    taps: [1.5 V, 3 V, 4.5 V, 6 V, 9 V]
    cell: 1.5 V
    perCell: 0.4 ohm
    tolerance: 3 %
    maxCurrent: 500 mA
  - { id: high-voltage, kind: external, from: 0 V, to: 60 V, resistance: 1 kohm, tolerance: 2 %, maxCurrent: 50 mA }
  - { id: high-current, kind: external, from: 0 V, to: 12 V, resistance: 0.1 ohm, tolerance: 2 %, maxCurrent: 3 A }

gain:
  kind: dial
  spans:
    - { id: low, from: 5, to: 50 }
    - { id: middle, from: 20, to: 200 }
    - { id: high, from: 100, to: 1000 }
  tolerance: 5 %
  readable: 1 %
  nullWithin: 1 %
  collector: [0.5 mA, 100 mA]

tests:
  - { reads: short, ranges: [100 mA], supply: collector, series: 47 ohm }
  - { reads: I_CEO, ranges: [100 uA, 300 uA, 1 mA, 3 mA, 10 mA], supply: collector, series: 100 ohm }
  - { reads: I_CEO, ranges: [100 uA, 300 uA, 1 mA, 3 mA, 10 mA], supply: high-voltage, series: 1 kohm }
  - { reads: I_CBO, ranges: [100 uA, 300 uA, 1 mA], supply: collector, series: 100 ohm }
  - { reads: I_CBO, ranges: [100 uA, 300 uA, 1 mA], supply: high-voltage, series: 1 kohm }
  - { reads: I_CES, ranges: [100 uA, 300 uA, 1 mA], supply: collector, series: 100 ohm }
  - { reads: I_EBO, ranges: [100 uA, 300 uA, 1 mA], supply: collector, series: 100 ohm }
  - { reads: h_FE, ranges: [1 mA, 3 mA, 10 mA, 30 mA, 100 mA], supply: collector }
  - { reads: I_C, ranges: [1 mA, 3 mA, 10 mA, 30 mA, 100 mA, 300 mA], supply: collector }
  - { reads: I_C, ranges: [300 mA, 1 A, 3 A], supply: high-current }
  - { reads: I_B, ranges: [100 uA, 300 uA, 1 mA, 3 mA, 10 mA, 30 mA, 100 mA], supply: collector }
  - { reads: V_BE, ranges: [1 V], supply: collector }
  - { reads: V_CE, ranges: [1 V, 10 V], supply: collector }
  - { reads: V_CE(sat), ranges: [1 V], supply: collector }
  - { reads: V_F, ranges: [1 V, 10 V], supply: collector }
  - { reads: I_F, ranges: [1 mA, 3 mA, 10 mA, 30 mA, 100 mA], supply: collector }
  - { reads: I_R, ranges: [100 uA, 300 uA, 1 mA], supply: collector, series: 100 ohm }
  - { reads: I_R, ranges: [100 uA, 300 uA, 1 mA], supply: high-voltage, series: 1 kohm }

limits: { current: 3 A, voltage: 60 V }
shortLooksLike: At the short check on 3 V, a part shorted from collector to emitter takes the needle past half of the scale.
thermometer: 1 K
`
