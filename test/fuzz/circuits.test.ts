import fc from 'fast-check'
import { describe, expect, test, vi } from 'vitest'
import { circuitFromText } from '#bench'
import {
  type Circuit,
  circuitExampleJson,
  compileCircuit,
  operatingPoint,
  readOutput,
  selfHeatedPoint,
  sensitivity,
  solve,
  writeNetlist,
} from '#core/circuit'
import { anyText, spoiled } from './spoiled.ts'
import { tryAll } from './take.ts'

vi.setConfig({ testTimeout: 180_000 })

const netlists = [
  writeNetlist(circuitFromText(circuitExampleJson, 'stage.json')),
  [
    'every element',
    'V1 p 0 DC 9',
    'R1 p d 2.2k',
    'R2 p g 1meg ; a comment',
    'R3 g 0 470k',
    'M1 d g s 0 nm W=100u L=10u',
    'R4 s 0 330',
    'D1 d k dz',
    'J1 k 0 j jn',
    'R5 j 0 1k',
    'I1 0 b 5u',
    'Q1 d b 0 qn',
    '.model nm NMOS(LEVEL=1 VTO=1.2 KP=1m GAMMA=0.4 PHI=0.65 LAMBDA=0.01',
    '+ IS=1e-14 RD=1 RS=1)',
    '.model dz D(IS=1n N=1.8 BV=5 IBV=1m ISR=1n NR=2 IKF=1m RS=2)',
    '.model jn NJF(VTO=-2 BETA=1m LAMBDA=0.01 RD=10 RS=10)',
    '.model qn NPN(IS=1e-14 BF=200 VAF=80 IKF=50m ISE=1p NE=1.6 RB=100 RBM=10 IRB=100u RE=0.5 RC=1 XTB=1.5)',
    '.temp 27',
    '.options tnom=25 gmin=1e-12',
    '.end',
    '',
  ].join('\n'),
]

/** What a circuit that reads goes on to: every use must give numbers, or say as data that it did not get there. */
function used(circuit: Circuit): unknown {
  const point = operatingPoint(circuit)
  const again = circuitFromText(writeNetlist(circuit), 'again.cir')
  expect(again.components.length).toBeGreaterThanOrEqual(circuit.components.length)
  if (!point.converged) return point
  const c = compileCircuit(circuit)
  const node = [...c.nodeRow.keys()][0]
  const slopes = node !== undefined && solve(c).converged ? sensitivity(c, readOutput(c, `node:${node}`)) : undefined
  const part = c.instances[0]?.ref
  const heated =
    part === undefined ? undefined : selfHeatedPoint(circuit, part, 100, { ceilingC: 100, stepK: 15 }).heating
  return [point, slopes, heated?.kind]
}

describe('fuzzed circuits', () => {
  test('netlists', () => {
    const some = fc.oneof(
      { weight: 8, arbitrary: spoiled(...netlists) },
      { weight: 1, arbitrary: anyText },
      { weight: 1, arbitrary: anyText.map((t) => `title\nR1 a 0 1k\n${t}`) },
    )
    tryAll(some, 'netlists', (text) => used(circuitFromText(text, 'stage.cir')))
  })

  test('circuits as JSON', () => {
    const some = fc.oneof({ weight: 8, arbitrary: spoiled(circuitExampleJson) }, { weight: 1, arbitrary: anyText })
    tryAll(some, 'circuits', (text) => used(circuitFromText(text, 'stage.json')))
  })

  test('networks of anything', () => {
    const node = fc.constantFrom('0', 'a', 'b', 'c', 'd')
    const value = fc.oneof(
      fc.double({ min: -20, max: 20, noNaN: true }),
      fc.constantFrom(0, 1e-300, 1e300, -1e300, 1e9, 1e-12),
    )
    const devices = {
      q: '.model q NPN(IS=1e-14)',
      p: '.model p PNP(IS=2u RB=100)',
      d: '.model d D(BV=4)',
      j: '.model j PJF',
      m: '.model m NMOS(GAMMA=0.5)',
    }
    const element = fc.oneof(
      fc
        .tuple(fc.constantFrom('R', 'V', 'I'), node, node, value)
        .map(([k, a, b, v]) => [k, `${a} ${b} ${k === 'R' ? Math.abs(v) : v}`]),
      fc.tuple(node, node).map(([a, b]) => ['D', `${a} ${b} d`]),
      fc.tuple(node, node, node, fc.constantFrom('q', 'p')).map(([a, b, c, m]) => ['Q', `${a} ${b} ${c} ${m}`]),
      fc.tuple(node, node, node).map(([a, b, c]) => ['J', `${a} ${b} ${c} j`]),
      fc.tuple(node, node, node, node).map(([a, b, c, e]) => ['M', `${a} ${b} ${c} ${e} m`]),
    )
    tryAll(fc.array(element, { minLength: 1, maxLength: 9 }), 'networks', (elements) => {
      const cards = elements.map(([letter, rest], k) => `${letter}${k} ${rest}`)
      return used(circuitFromText(['network', ...cards, ...Object.values(devices), ''].join('\n'), 'n.cir'))
    })
  })
})
