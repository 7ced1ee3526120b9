import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { dataDocument } from '#core/text'
import {
  type Compiled,
  compileCircuit,
  readNetlist,
  readOutput,
  sensitivity,
  setCard,
  setTemperature,
  setValue,
  solve,
} from './index.ts'
import { readCircuit } from './read-circuit.ts'

/** Every kind of part, at currents where each has a share in the outputs. */
const everyKind = readNetlist(
  [
    'every kind of part',
    'V1 p 0 12',
    'R1 p d 2.2k',
    'R2 p g 1meg',
    'R3 g 0 470k',
    'M1 d g s 0 nm W=200u L=20u',
    'R4 s 0 330',
    'D1 d k dz',
    'J1 k 0 j jn',
    'R5 j 0 1k',
    'I1 0 b 20u',
    'RB b k 220k',
    'Q1 d b e qn',
    'RE e 0 470',
    '.model nm NMOS(VTO=1.2 KP=1m GAMMA=0.4 PHI=0.65 LAMBDA=0.01 IS=1e-14 RD=1 RS=1)',
    '.model dz D(IS=1n N=1.8 ISR=1n NR=2 IKF=1m RS=2)',
    '.model jn NJF(VTO=-2 BETA=1m LAMBDA=0.01 RD=10 RS=10 IS=1e-13)',
    '.model qn NPN(IS=1e-14 BF=200 VAF=80 VAR=15 IKF=50m ISE=1p NE=1.6 BR=4 RB=100 RBM=10 IRB=100u RE=0.5 RC=1 XTB=1.5)',
    '.temp 27',
    '',
  ].join('\n'),
)

/** A cell with its resistance, a breakdown diode that holds a voltage, a p channel and a PNP. */
const held = readCircuit(
  dataDocument({
    components: [
      { kind: 'B', ref: 'CELL', nodes: ['p', '0'], value: 13, resistance: 25 },
      { kind: 'R', ref: 'R1', nodes: ['p', 'z'], value: 1500 },
      { kind: 'D', ref: 'DZ', nodes: ['0', 'z'], device: 'zener' },
      { kind: 'J', ref: 'J1', nodes: ['y', 'z', 'p'], device: 'pj' },
      { kind: 'R', ref: 'R2', nodes: ['y', '0'], value: 820 },
      { kind: 'Q', ref: 'Q1', nodes: ['c', 'z', 'p'], device: 'pnp' },
      { kind: 'R', ref: 'R3', nodes: ['c', '0'], value: 3.3 },
    ],
    devices: {
      zener: { params: { is: 1e-14, bv: 12.4, ibv: 5e-4, nbv: 1.5, rs: 8 } },
      pj: { polarity: 'pjf', params: { vto: -1.7, beta: 2e-3, lambda: 0.02, is: 1e-13 } },
      pnp: { polarity: 'pnp', params: { is: 3e-14, bf: 90, vaf: 40, rb: 30, re: 0.4 } },
    },
  } as never),
)

const cases = [
  ...['node:d', 'node:e', 'source:V1', 'Q1.ic', 'M1.id', 'J1.id', 'D1.if', 'Q1.vbe'].map((output) => ({
    circuit: everyKind,
    output,
  })),
  ...['node:z', 'node:y', 'source:CELL', 'Q1.ib', 'DZ.if', 'J1.ig'].map((output) => ({ circuit: held, output })),
].map((c) => ({ ...c, name: `${c.output} of ${c.circuit.title}` }))

/** Value of an output after a change, solved anew. */
function valueAfter(circuit: typeof everyKind, output: string, change: (c: Compiled) => void): number {
  const c = compileCircuit(circuit)
  change(c)
  if (!solve(c).converged) throw new Error('not solved')
  return sensitivity(c, readOutput(c, output)).value
}

describe('adjoint slopes agree with differences of whole solutions', () => {
  test.each(cases)('$name', ({ circuit, output }) => {
    const c = compileCircuit(circuit)
    expect(solve(c).converged).toBe(true)
    const { slopes, value } = sensitivity(c, readOutput(c, output))
    const check = (name: string, at: number, set: (c: Compiled, to: number) => void, share: number): void => {
      const h = Math.abs(at) * share
      const byDifference =
        (valueAfter(circuit, output, (o) => set(o, at + h)) - valueAfter(circuit, output, (o) => set(o, at - h))) /
        (2 * h)
      // by what a change of the whole cause would make of the output, as far as doubles and the size of it allow
      const scale = Math.abs(value) + Math.abs(slopes[name]! * at) + 1e-9
      expect(Math.abs(slopes[name]! - byDifference) * Math.abs(at), name).toBeLessThan(3e-4 * scale)
    }
    let count = 0
    for (const part of circuit.components)
      if ('value' in part) {
        check(part.ref, part.value, (o, to) => setValue(o, part.ref, to), 1e-4)
        count++
      } else
        for (const [name, at] of Object.entries(circuit.devices[part.device]!.card) as [string, number][])
          if (slopes[`${part.ref}.${name}`] !== undefined) {
            check(`${part.ref}.${name}`, at, (o, to) => setCard(o, part.ref, { [name]: to }), 1e-4)
            count++
          }
    check('temperature', c.temperatureK, setTemperature, 1e-4)
    expect(count).toBeGreaterThan(15)
  })

  test('a cell has a slope with its own resistance: more of it, and less comes out', () => {
    const c = compileCircuit(held)
    solve(c)
    expect(sensitivity(c, readOutput(c, 'node:p')).slopes['CELL.resistance']!).toBeLessThan(0)
  })

  test('what is not there is named', () => {
    const c = compileCircuit(held)
    solve(c)
    for (const wrong of ['node:q', 'source:V9', 'Q1.id', 'Q9.ic'])
      expect(() => readOutput(c, wrong)).toThrow(FaultError)
  })
})
