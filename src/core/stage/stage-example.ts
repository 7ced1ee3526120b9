/** A position that works: a germanium stage with a divider, resistors of 10 %. */
export const stageExampleYaml = `title: first audio stage of a radio
stage: divider
polarity: PNP
supply: 9 V
values:
  R1: 33 kohm
  R2: 6.8 kohm
  RC: 2.7 kohm
  RE: 1 kohm +- 5 %
tolerance: 10 %
swing: 0.5 V
parts:
  Q1: OC71
`

/** A position with a netlist of its own: a stage no template has, resistors of 10 %. */
export const netlistExampleYaml = `title: second IF stage of a pocket radio
netlist: |
  IF stage with automatic gain control
  VB neg 0 -9
  R1 neg b 120k     ; bias
  RA b d 8.2k       ; from the detector
  RV d 0 5k         ; volume control, the detector's load
  RS s 0 3          ; winding of the transformer
  RD neg c 1k       ; decoupling
  RE e 0 680
  D1 d s OA79
  Q1 c b e OC45
  .model OC45 PNP
  .model OA79 D
place: Q1
values:
  R1: 120 kohm +- 5 %
tolerance: 10 %
swing: 1 V
want:
  ic: 0.8 mA +- 0.3 mA
rebias: [R1, RE]
`
