/** A job that works: an intercom of two stations. Its types are in the catalog; it names no part of a book. */
export const jobExampleYaml = `job: Hut intercom
equipment: intercom of two stations, four transistors
power: battery
begun: 2026-03-20
note: crackles; the far station is hardly heard
positions:
  TR1:
    type: OC71
    role: microphone amplifier
    circuit:
      stage: divider
      polarity: PNP
      supply: 9 V
      values: { R1: 33 kohm, R2: 6.8 kohm, RC: 2.7 kohm, RE: 1 kohm }
      parts: { Q1: OC71 }
    found: marked OC71, reads well
    decision: keep
    done: true
  TR2:
    type: OC71
    role: driver
    found: no marking, one lead broken off
    decision: replace
  TR3:
    type: AC128
    role: output
  TR4:
    type: AC128
    role: output
`
