/**
 * The job of the demo: the tide recorder of Orrin Point with its seven germanium transistors. Its values are invented, as
 * the parts are; each circuit follows a stage of `germane stage --templates`.
 */
export const demoJob = `job: Orrin Point tide recorder
equipment: chart recorder of a tide gauge, amplifier board and pen drive, from a 12\u00a0V accumulator
power: battery
begun: 2026-03-14
note: |-
  Fuse of the amplifier board had blown; the trace drifts upward as the hut heats up.
  The hut is between 0 °C and 40 °C over the year.
positions:
  Q1:
    type: 2N1305
    role: float amplifier, first stage
    circuit:
      title: float amplifier, first stage
      stage: divider
      polarity: PNP
      supply: 12 V
      values: { R1: 47 kohm, R2: 10 kohm, RC: 3.3 kohm, RE: 1 kohm }
      to: 40 C
      parts: { Q1: 2N1305 }
    foundPart: OP-1
    decision: keep
    done: true
  Q2:
    type: 2N1305
    role: float amplifier, second stage
    circuit:
      title: float amplifier, second stage
      stage: collector-feedback
      polarity: PNP
      supply: 12 V
      values: { RF: 220 kohm, RC: 3.3 kohm }
      to: 40 C
      parts: { Q1: 2N1305 }
    foundPart: OP-2
    decision: keep
    done: true
  Q3:
    type: 2N1305
    role: tone filter
    circuit:
      title: tone filter
      stage: fixed-bias
      polarity: PNP
      supply: 12 V
      values: { RB: 680 kohm, RC: 4.7 kohm }
      to: 40 C
      parts: { Q1: 2N1305 }
    foundPart: OP-3
    note: Reads as the best of the lot. Somebody put it here before us.
  Q4:
    type: 2N1305
    role: line driver
    circuit:
      title: line driver
      stage: divider
      polarity: PNP
      supply: 12 V
      values: { R1: 15 kohm, R2: 3.3 kohm, RC: 680 ohm, RE: 220 ohm }
      to: 40 C
      parts: { Q1: 2N1305 }
    foundPart: OP-4
    decision: keep
    note: Leaky, but its divider is stiff. It may stay; look at the trace on a warm day.
  Q5:
    type: 2N1305
    role: pen relay switch
    circuit:
      title: pen relay switch
      stage: switch
      polarity: PNP
      supply: 12 V
      values: { RB: 10 kohm, RC: 1 kohm }
      to: 40 C
      parts: { Q1: 2N1305 }
    found: shorted, it took the fuse with it
    foundPart: OP-5
    decision: replace
    reserved: OP-7
  Q6:
    type: 2N1305
    role: pen drive follower
    circuit:
      title: pen drive follower
      stage: follower
      polarity: PNP
      supply: 12 V
      values: { R1: 10 kohm, R2: 10 kohm, RE: 470 ohm }
      to: 40 C
      parts: { Q1: 2N1305 }
    found: one lead rusted through
    decision: replace
    fitted: 2N1305 from the spare pen drive, read on its board
    done: true
  Q7:
    type: 2N1305
    role: pen drive oscillator
    found: no marking left, red dot
    note: Trace its circuit first.
`
