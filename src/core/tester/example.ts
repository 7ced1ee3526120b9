/** A filled description of a needle tester, as a beginning for one's own. */
export const testerExample = `# What your tester is. Write values with their units; lines that begin with # are notes.
format: germane/tester/1
id: bench-tester
name: Bench tester
kind: needle                     # needle, digital or display
polarities: [NPN, PNP]

movement:
  fullScale: 100 uA
  coil: 1.1 kohm
  class: 2 %                     # of full scale; printed on the dial
  readable: 1/5                  # how finely you read between two marks

scales:
  - { id: "100", divisions: 50, end: 100 }

ranges:
  - { id: 100 uA, fullScale: 100 uA, circuit: movement }
  - { id: 1 mA, fullScale: 1 mA, circuit: { kind: shunt, shunt: 122 ohm, tolerance: 1 % } }
  - { id: 10 mA, fullScale: 10 mA, circuit: { kind: shunt, shunt: 11.1 ohm, tolerance: 1 %, asFound: 11.15 ohm +- 0.02 ohm } }
  - { id: 1 V, fullScale: 1 V, circuit: { kind: multiplier, series: 8.9 kohm, tolerance: 1 % } }

supplies:
  - { id: cells, kind: cells, taps: [1.5 V, 4.5 V], cell: 1.5 V, perCell: 0.5 ohm, tolerance: 3 %, maxCurrent: 500 mA }

gain:
  kind: dial                     # dial, ratio (I_C over I_B), digital or none
  spans:
    - { id: low, from: 10, to: 100 }
    - { id: high, from: 50, to: 500 }
  tolerance: 5 %
  readable: 1 %                  # of the top of the span
  nullWithin: 1 %
  collector: [0.5 mA, 10 mA]

tests:
  - { reads: short, ranges: [10 mA], supply: cells, series: 470 ohm }
  - { reads: I_CEO, ranges: [100 uA, 1 mA, 10 mA], supply: cells, series: 470 ohm }
  - { reads: I_C, ranges: [1 mA, 10 mA], supply: cells }
  - { reads: h_FE, ranges: [1 mA, 10 mA], supply: cells }
  - { reads: V_BE, ranges: [1 V], supply: cells }

limits: { current: 500 mA, voltage: 15 V }
shortLooksLike: At the short check the needle goes past the red mark.
thermometer: 1 K
`

/** Readings that fit the example tester, and the Larkfield sample, as a table. */
export const readingsExampleCsv = `part,type,reads,shown,range,point,supply,ambient,at,note
# two germanium parts of one lot
A1,2N1305,short,clear,,,1.5 V,21 degC,2024-05-12 14:30,
A1,2N1305,I_CEO,7.3 div,1 mA,1,4.5 V,21 degC,2024-05-12 14:32,
A1,2N1305,I_C,25 div,10 mA,2,4.5 V,21 degC,2024-05-12 14:35,
A1,2N1305,h_FE,42,low,2,4.5 V,21 degC,2024-05-12 14:35,
A1,2N1305,V_BE,0.21 V,1 V,2,4.5 V,21 degC,2024-05-12 14:36,
A2,2N1305,short,short,,,1.5 V,21 degC,2024-05-12 14:40,"collector to emitter, both ways"
`

/** The same as JSON. */
export const readingsExampleJson = `{
  "format": "germane/readings/1",
  "ambient": "21 degC",
  "readings": [
    { "part": "A1", "type": "2N1305", "reads": "short", "shown": "clear", "supply": "1.5 V" },
    { "part": "A1", "type": "2N1305", "reads": "I_CEO", "shown": "7.3 div", "range": "1 mA", "point": 1, "supply": "4.5 V" },
    { "part": "A1", "type": "2N1305", "reads": "I_C", "shown": "25 div", "range": "10 mA", "point": 2, "supply": "4.5 V" },
    { "part": "A1", "type": "2N1305", "reads": "h_FE", "shown": 42, "range": "low", "point": 2, "supply": "4.5 V" },
    { "part": "A1", "type": "2N1305", "reads": "V_BE", "shown": "0.21 V", "range": "1 V", "point": 2, "supply": "4.5 V" },
    { "part": "A2", "type": "2N1305", "reads": "short", "shown": "short", "supply": "1.5 V", "note": "both ways" }
  ]
}
`
