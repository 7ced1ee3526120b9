import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { type Device, operatingPoint, readCircuit, writeModelCard } from '#core/circuit'
import { FaultError } from '#core/fault'
import { voltsPerKelvin2014 } from '#core/physics'
import {
  deviceOf,
  isTurned,
  makeStage,
  netlistExampleYaml,
  type PartNumbers,
  type PositionRead,
  polarityAdvice,
  rankParts,
  readPosition,
  stability,
  stageAnswer,
  stageAt,
  stageCircuit,
  stageGlance,
  type TransistorNumbers,
  turned,
} from '#core/stage'
import { expectRelative, hasSimulator, simulated } from '#core/testing'
import { dataDocument, readYaml } from '#core/text'
import { readData } from './as-netlist.ts'
import { diode, transistor } from './positions.ts'

const readText = (text: string, file?: string): PositionRead => {
  const parsed = readYaml(text, file === undefined ? {} : { file })
  if (!parsed.ok) throw new FaultError(parsed.faults)
  return readPosition(parsed.document)
}

const faultsOf = (text: string): string => {
  try {
    readText(text, 'position.yaml')
  } catch (error) {
    if (error instanceof FaultError) return error.message
    throw error
  }
  return ''
}

/** Stages as ngspice 39.3 computes them, the same devices and others in their place. */
const reference = JSON.parse(
  readFileSync(join(import.meta.dirname, '../../src/core/circuit/stages.ref.json'), 'utf8'),
) as {
  stages: {
    id: string
    components: { ref: string; kind: string; nodes: string[]; value?: number }[]
    results: {
      temperature_degC: number
      assignment: Record<string, string>
      devices: Record<string, Record<string, number>>
    }[]
  }[]
}

describe('the stages of ngspice, as netlists', () => {
  const rows = reference.stages.flatMap((s) =>
    s.results.map((r) => ({
      name: `${s.id} ${Object.values(r.assignment).join(' ')} ${r.temperature_degC} degC`,
      s,
      r,
    })),
  )
  test('are seventy-two', () => expect(rows).toHaveLength(72))

  test.each(rows)('$name', ({ s, r }) => {
    const given = readCircuit(dataDocument(s), r.assignment)
    const devices: Record<string, Device> = Object.fromEntries(
      Object.entries(r.assignment).map(([ref, name]) => [ref, given.devices[name]!]),
    )
    const typeOf = (d: Device): string => (d.kind === 'bipolar' ? d.polarity : 'd')
    const cards = s.components.map((c) =>
      c.value === undefined ? `${c.ref} ${c.nodes.join(' ')} m${c.ref}` : `${c.ref} ${c.nodes.join(' ')} ${c.value}`,
    )
    const models = Object.entries(devices).map(([ref, d]) => `.model m${ref} ${typeOf(d)}`)
    const { position } = readData({ netlist: [s.id, ...cards, ...models].join('\n'), place: 'Q1' })
    const parts = Object.fromEntries(
      Object.entries(devices).map(([ref, d]): [string, PartNumbers] => [
        ref,
        d.kind === 'bipolar' ? transistor({ polarity: d.polarity === 'npn' ? 'NPN' : 'PNP' }) : diode,
      ]),
    )
    const setting = { voltsPerKelvin: voltsPerKelvin2014, gminS: 1e-15 }
    const circuit = { ...stageCircuit(position, parts), devices }
    const point = operatingPoint(circuit, { temperatureC: r.temperature_degC, setting })
    for (const [ref, device] of Object.entries(r.devices))
      for (const [key, value] of Object.entries(device)) {
        const got = (point.devices[ref] as unknown as Record<string, number>)[key]!
        expect(Math.abs(got - value), `${ref}.${key}`).toBeLessThanOrEqual(1e-4 * Math.abs(value) + 1e-12)
      }
  })
})

/** A long-tailed pair on two supplies, its tail a junction transistor; invented. */
const pair = `title: long-tailed pair
netlist: |
  long-tailed pair
  VP p 0 12
  VN n 0 -12
  RC1 p c1 10k
  RC2 p c2 10k
  RB1 0 b1 10k
  IS1 b1 0 1u
  Q1 c1 b1 e silicon
  Q2 c2 0 e twin
  J1 e g n tail
  RG g n 1k
  RS e 0 1meg
  .model silicon NPN
  .model twin NPN(IS=2e-14 BF=250 VAF=80 XTB=1.5 EG=1.11)
  .model tail NJF(VTO=-1.2 BETA=0.7m LAMBDA=1e-3)
place: Q1
loads: RC1
rebias: RC1
parts:
  Q1: { name: one half, material: Si, gain: 200, leakage: 1 nA, vbe: 0.62 V, vce: 5 V }
`

const partsOf = ({ wanted }: PositionRead) =>
  Object.fromEntries(
    Object.entries(wanted).flatMap(([ref, w]) => ('numbers' in w ? [[ref, w.numbers as TransistorNumbers]] : [])),
  )

describe('a stage no template has', () => {
  const read = readText(pair)
  const { position } = read
  const parts = partsOf(read)

  test('is read: what is a place, what follows the supply, what stays', () => {
    const { template } = position
    expect(position).toMatchObject({ place: 'Q1', polarity: 'NPN', supplyV: 12, title: 'long-tailed pair' })
    expect(template.sources).toEqual([
      { ref: 'VP', node: 'p' },
      { ref: 'VN', node: 'n', share: -1 },
    ])
    expect(template.places.map((p) => [p.ref, p.device !== undefined])).toEqual([
      ['Q1', false],
      ['Q2', true],
    ])
    expect(template.fixed!.components.map((c) => c.ref)).toEqual(['IS1', 'J1'])
    expect(template.rooms.map((r) => r.nodes)).toEqual([
      ['c1', 'e'],
      ['p', 'c1'],
    ])
  })

  test('is answered in all that templates are', () => {
    const answer = stageAnswer(position, parts, { count: 20 })
    expect(answer.verdict.word).toBe('works')
    expect(answer.table).toHaveLength(7)
    expect(answer.cases.map((c) => c.name)).toEqual(['supply low', 'aged, more current', 'aged, less current'])
    expect(answer.stability.map((f) => [f.symbol, f.textbook])).toEqual([
      ['S(I_CO)', undefined],
      ['S(V_BE)', undefined],
      ['S(h_FE)', undefined],
    ])
    expect(answer.leakage).toHaveLength(3)
    expect(answer.spread!.at).toHaveLength(3)
    expect(stageGlance(makeStage(position, parts), { ambientC: 40, supplyV: 10 }).word).toBe('works')
    const drawer = [transistor({ name: 'PNP' }), transistor({ ...parts.Q1!, name: 'twin' })]
    const { ranked, leftOut } = rankParts(position, parts, drawer)
    expect([ranked.length, leftOut.length]).toEqual([1, 1])
  })

  test('turned to the other polarity it does the same, with advice', () => {
    const other = { Q1: { ...parts.Q1!, polarity: 'PNP' as const } }
    const [a, b] = [stageAt(makeStage(position, parts), 40), stageAt(makeStage(turned(position), other), 40)]
    if (a.kind !== 'point' || b.kind !== 'point') throw new Error('no point')
    expectRelative(b.point.ic, a.point.ic, 1e-9, 'I_C')
    expect(b.point.rooms[0]).toBeCloseTo(a.point.rooms[0]!, 9)
    expect(isTurned(position, other.Q1)).toBe(true)
    expect(polarityAdvice(position, other.Q1).join(' ')).toMatch(/electrolytic/)
  })

  describe.runIf(hasSimulator())('stands where ngspice has it', () => {
    const netlist = /netlist: \|\n([\s\S]*?)\nplace/.exec(pair)![1]!.replaceAll(/^ {2}/gm, '')
    const device = deviceOf(parts.Q1!)
    const leak = device.kind === 'bipolar' ? device.leakOhm!.cb! : Number.NaN
    // the card of the numbers in place of the bare one; silicon leaks over its surface, which is a resistor
    const whole = netlist.replace(
      '.model silicon NPN',
      `${writeModelCard('silicon', device).trimEnd()}\nRLEAK c1 b1 ${leak}`,
    )
    const run = (text: string, ambientC: number) =>
      simulated(`${text}\n.temp ${ambientC}\n.options gmin=1e-15\n`, ['@q1[ic]', 'v(c1)', 'v(e)'])

    test.each([
      [0, 1],
      [25, 1],
      [50, 1],
      [25, 0.8],
    ])('at %i degC and %d of the supply', (ambientC, share) => {
      const sagged = whole.replace('VP p 0 12', `VP p 0 ${12 * share}`).replace('VN n 0 -12', `VN n 0 ${-12 * share}`)
      const said = run(sagged, ambientC)
      const outcome = stageAt(makeStage({ ...position, supplyV: 12 * share }, parts), ambientC)
      if (outcome.kind !== 'point') throw new Error('no point')
      expectRelative(outcome.point.vce, said['v(c1)']! - said['v(e)']!, 1e-4, 'V_CE')
      expectRelative(outcome.point.rooms[1]!, 12 * share - said['v(c1)']!, 1e-4, 'over RC1')
    })

    test('with its stability factors, by one nanoampere more into the base and one millivolt', () => {
      const at = (text: string): number => {
        const said = run(text, 25)
        return (12 - said['v(c1)']!) / 10e3
      }
      const bare = at(whole)
      const [co, be] = stability(makeStage(position, parts))
      const leaked = at(whole.replace('Q1 c1 b1', 'IX c1 b1 1n\nQ1 c1 b1'))
      expectRelative(co!.solved, (leaked - bare) / 1e-9, 1e-3, 'S(I_CO)')
      const shifted = at(whole.replace('Q1 c1 b1', 'VX b1 bx 1m\nQ1 c1 bx').replace('RLEAK c1 b1', 'RLEAK c1 bx'))
      expectRelative(be!.solved, (shifted - bare) / 1e-3, 0.02, 'S(V_BE)')
    })
  })
})

describe('a netlist position as people write it', () => {
  test('the example: a bare model names a published type', () => {
    const { position, wanted } = readText(netlistExampleYaml)
    expect(wanted).toEqual({ Q1: { type: 'OC45' }, D1: { type: 'OA79' } })
    expect(position).toMatchObject({ polarity: 'PNP', place: 'Q1', supplyV: 9 })
    expect(position.tolerance.R1).toBeCloseTo(0.05, 12)
    expect(position.demands.want).toEqual({ ic: { low: 5e-4, usual: 8e-4, high: expect.closeTo(1.1e-3, 12) } })
    expect(position.template.settles).toEqual(['R1', 'RE'])
  })

  test('resistors and the supply may be given anew', () => {
    const text = netlistExampleYaml
      .replace('R1: 120 kohm +- 5 %', 'R1: 100 kohm')
      .replace('swing', 'supply: 8 V\nswing')
    const { position } = readText(text)
    expect(position.ohm.R1).toBe(100e3)
    expect(position.supplyV).toBe(8)
  })

  test.each([
    ['R1 neg b 120k', 'R1 neg b twelve', /position\.yaml, line 5, netlist: "twelve" is not the value of R1/],
    ['RV d 0 5k', 'C1 d 0 10u', /line 7, netlist: "C1" is a capacitor, which takes no direct current\. Leave it out/],
    ['.model OC45 PNP', '', /line 12, netlist: "oc45" is not the model of a bipolar transistor/],
    ['place: Q1', 'place: Q2', /line 15:8, place: "Q2" is no place of this stage\. It has D1, Q1/],
    ['rebias: [R1, RE]', 'rebias: [R1, RX]', /rebias: "RX" is no resistor of this stage/],
    ['rebias: [R1, RE]', 'rebias: [R1, RE, RA, RD]', /names more than 3 resistors/],
    ['  R1: 120 kohm +- 5 %', '  R9: 120 kohm', /values\.R9: "R9" is no resistor/],
    ['ic: 0.8 mA +- 0.3 mA', 'ic: 0.8 mA', /want\.ic: .*has no width\. Say how far/],
    ['VB neg 0 -9', 'VB neg 0 0', /has no voltage source that feeds it\. Add one/],
    ['.model OA79 D', '.model OA79 D\n  .temp 40', /asks for a temperature\. Take \.temp out/],
    ['place: Q1', 'place: Q1\nsupplies: VX', /supplies: "VX" is no voltage source of this stage/],
    ['place: Q1', 'place: Q1\nloads: [RC]', /loads: "RC" is no resistor of this stage/],
    [
      'place: Q1',
      'place: Q1\nclipping: [{ between: [c, x], says: no }]',
      /clipping\[1\]\.between\[2\]: "x" is no node/,
    ],
    ['place: Q1', 'place: Q1\npolarity: PNP', /"polarity" is not a key that is known here/],
    ['place: Q1', 'place: Q1\nstage: divider', /"stage" is not a key that is known here/],
    ['place: Q1', 'place: Q1\ncoupling: { Q2: 0.5 }', /coupling\.Q2: "Q2" is no place or thermistor/],
    ['place: Q1', 'place: Q1\ncoupling: { D1: 2 }', /is more than 1/],
    ['VB neg 0 -9', 'V_BE neg 0 -9', /source called V_BE, which stands for something else/],
    ['place: Q1', 'place: Q1\nends: [{ state: on, between: [c, 0], most: 10 %, says: no }]', /"on" is no state/],
    ['place: Q1', 'place: Q1\nheatSink: 20 V', /is a voltage/],
  ])('%s -> %s is refused with its mend', (from, to, wanted) => {
    expect(netlistExampleYaml).toContain(from)
    expect(faultsOf(netlistExampleYaml.replace(from, to))).toMatch(wanted)
  })

  test('a room is called as the file has it, and told in volts of the first node against the second', () => {
    const clipping = 'clipping: [{ between: [e, c], transistor: true, says: no more }]'
    const { position } = readText(netlistExampleYaml.replace('place: Q1', `place: Q1\n${clipping}`))
    const parts = { Q1: transistor(), D1: diode }
    const outcome = stageAt(makeStage(position, parts), 25)
    if (outcome.kind !== 'point') throw new Error('no point')
    // the collector of a PNP stands below its emitter; 0.2 V of it are kept
    expect(outcome.point.rooms[0]).toBeCloseTo(outcome.point.vce - 0.2, 9)
    expect(stageAnswer(position, parts, { count: 0 }).limits.map((l) => l.limit)).toContain('room e-c')
  })

  test('which part is looked at must be said where there are two transistors', () => {
    expect(faultsOf(pair.replace('place: Q1\n', ''))).toMatch(/does not say which part is looked at\. Add place: Q1/)
    expect(readText(netlistExampleYaml.replace('place: Q1\n', '')).position.place).toBe('Q1')
  })

  test('a circuit of nothing but a diode must say when it works', () => {
    const file = { netlist: 'detector\nVIN a 0 0.5\nD1 a o OA79\nRL o 0 10k\n.model OA79 D' }
    expect(() => readData(file)).toThrow(/nothing that says when it works\. Add clipping, ends or want/)
    const { position } = readData({ ...file, want: { ic: '30 uA +- 20 uA' } })
    expect(stageAnswer(position, { D1: diode }, { count: 0 }).verdict).toMatchObject({ word: 'works' })
  })

  test('what has a model of its own needs no part; the part that is looked at does', () => {
    const { position } = readText(pair)
    expect(() => stageCircuit(position, {})).toThrow(/Nothing is said of the transistor, Q1/)
  })
})
