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
