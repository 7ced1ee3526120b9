import fc from 'fast-check'
import { expect, test, vi } from 'vitest'
import { positionFromText, stageDocument } from '#bench'
import { needType } from '#core/device'
import { netlistExampleYaml, type Parts, stageAnswer, stageExampleYaml, typeNumbers } from '#core/stage'
import { anyText, spoiled } from './spoiled.ts'
import { bench, tryAll } from './take.ts'

vi.setConfig({ testTimeout: 180_000 })

const power = `stage: push-pull-diode
polarity: NPN
supply: 9 V +- 1 V
supplyResistance: 2 ohm
values: { RED: 33, RFB: 22k, RBD: 3.3k, RL: 680, REN: 1, REP: 1 }
from: -10 C
to: 60 C
parts:
  Q1: { material: Ge, gain: 80 +- 20, leakage: 20 uA, at: 10 mA, thermalResistance: 100 K/W, junctionMax: 90 C }
  Q2: { material: Ge, gain: 80, leakage: 20 uA, vbe: 0.2 V, at: 10 mA }
  Q3: BC107
  D1: { material: Ge, forward: 0.3 V, leakage: 10 uA }
heatSink: 20 K/W
coupling: { D1: 80 %, Q2: 1 }
`

const driven = `netlist: |
  switch with a junction transistor as its load
  VCC vcc 0 6
  VIN d 0 6
  RB d b 15k
  RN b 0 22k
  J1 vcc c c load
  IL c 0 10u
  Q1 c b 0 oc139
  Q2 c b 0 twin
  .model oc139 NPN
  .model twin NPN(IS=1u BF=40 EG=0.67)
  .model load NJF(VTO=-2 BETA=1m)
  .options gmin=1e-14
place: Q1
supplies: VCC
beta: { RN: 3000 K }
coupling: { RN: 0.5 }
heatSink: 30 K/W
clipping: [{ between: [vcc, c], says: it is off }]
drive: { source: VIN, states: { on: 6 V, off: 0 V } }
ends: [{ state: on, between: [c, 0], most: 20 %, says: it no longer saturates }]
want: { vce: 3 V +- 2.9 V }
parts:
  Q1: { material: Ge, gain: 50 +- 20, leakage: 5 uA, thermalResistance: 300 K/W }
`

test('positions: refused with a sentence, or answered in numbers', () => {
  const some = fc.oneof(
    { weight: 6, arbitrary: spoiled(stageExampleYaml, power, netlistExampleYaml, driven) },
    { weight: 1, arbitrary: anyText },
  )
  tryAll(some, 'positions', (text) => {
    const { position, wanted } = positionFromText(text, 'position.yaml')
    const parts: Parts = Object.fromEntries(
      Object.entries(wanted).map(([ref, w]) => [
        ref,
        'type' in w ? typeNumbers(needType(bench.types, w.type).partType) : w.numbers,
      ]),
    )
    if (parts[position.place] === undefined) return []
    const document = stageDocument({ answer: stageAnswer(position, parts, { count: 3 }) })
    expect(JSON.stringify(document)).not.toContain('null')
    return [document]
  })
})
