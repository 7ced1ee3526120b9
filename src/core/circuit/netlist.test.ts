import { describe, expect, test } from 'vitest'
import { explain, FaultError } from '#core/fault'
import { compileCircuit, operatingPoint, readModelCard, readNetlist } from './index.ts'

/** Sentences of a netlist that is refused; a title stands above the lines. */
function refused(...lines: readonly string[]): readonly string[] {
  try {
    readNetlist(['title', ...lines].join('\n'), { file: 'stage.cir' })
  } catch (error) {
    if (error instanceof FaultError) return error.faults.map(explain)
    throw error
  }
  throw new Error(`${lines.join(' / ')} is taken`)
}

const npn = '.model q NPN(IS=1e-14)'

describe('what is not known is refused by its line', () => {
  test.each([
    ['C1 a 0 1u', 'C1" is a capacitor, which takes no direct current. Leave it out.'],
    ['L1 a 0 1m', 'L1" is a coil, which is not known here. Write the resistance of its wire as an R.'],
    ['X1 a 0 amp', 'X1" calls a subcircuit, which is not known here. Write its elements out.'],
    ['E1 a 0 b 0 2', 'E1" is a controlled source, which is not known here. Write a V or an I for it.'],
    ['T1 a 0 b 0', 'T1" is not an element that is known here. Known: R, V, I, D, Q, J, M.'],
    ['?', '?" is not an element that is known here. Known: R, V, I, D, Q, J, M.'],
  ])('%s', (line, wanted) => expect(refused('R1 a 0 1k', line)).toEqual([`stage.cir, line 3: "${wanted}`]))

  test.each([
    [
      '.tran 1u 1m',
      '.tran" asks for an analysis that is not known here. Leave it out: the operating point is computed.',
    ],
    ['.include parts.lib', '.include" asks for another file. Put the models into this one.'],
    ['.subckt amp a b', '.subckt" makes a subcircuit, which is not known here. Write its elements out.'],
    ['.param r=1k', '.param" gives names to values, which is not known here. Write the values out.'],
    ['.print v(a)', '.print" asks for output. Leave it out: all nodes and parts are told.'],
    ['.ic v(a)=1', '.ic" gives voltages to start from, which is not known here. Leave it out.'],
    ['.nonsense', '.nonsense" is not a command that is known here. Known: .model, .temp, .options, .op, .end.'],
    ['.op now', '.op now" has words after .op. Write it as .op.'],
    ['.temp hot', '.temp hot" is not one temperature. Write it as .temp 25.'],
    ['.temp -300', 'temp=-300" is not a value it can have. Check it.'],
    ['.options reltol=1e-6', 'reltol" is not an option that is known here. Known: temp, tnom, gmin.'],
    ['.options gmin', 'gmin" is not an option with a number. Write it as temp=25.'],
  ])('%s', (line, wanted) => expect(refused('R1 a 0 1k', line)).toEqual([`stage.cir, line 3: "${wanted}`]))

  test.each([
    ['R1 a 0', 'R1 a 0" has no two nodes and a value. Write it as R1 a b 4.7k.'],
    ['R1 a 0 4k7', '4k7" is not the value of R1. Write it as R1 a b 4.7k.'],
    ['R1 a 0 0', '0" is not a resistance from 1e-9 to 1e+18 ohm for R1. Write it as R1 a b 4.7k.'],
    ['R1 a 0 1k tc=0.001', 'tc=0.001" stands after the value of R1 and is not known here. Write it as R1 a b 4.7k.'],
    ['V1 a 0 SIN(0 1 1k)', 'SIN(0" is not the value of V1. Write it as V1 plus minus 9.'],
    ['V1 a 0 dc 5 ac 1', 'ac" stands after the value of V1 and is not known here. Write it as V1 plus minus 9.'],
    ['I1 0 a pulse', 'pulse" is not the value of I1. Write it as I1 from to 1m.'],
    ['Q1 a b q', 'Q1 a b q" has no 3 nodes and a model. Write it as Q1 collector base emitter MODEL.'],
    [
      'Q1 a b 0 q 2',
      '2" stands after the model of Q1 and is not known here. Write it as Q1 collector base emitter MODEL.',
    ],
    ['Q1 a b 0 r', 'r" is not the model of a bipolar transistor. Add a .model card for it.'],
    ['D1 a 0 q', 'q" is not the model of a diode. Add a .model card for it.'],
    [
      'D1 a 0 q area=2',
      'area=2" stands after the model of D1 and is not known here. Write it as D1 anode cathode MODEL.',
    ],
    ['M1 a b 0 0 q W=0', 'w=0" is not a size of M1 above 0 m.'],
  ])('%s', (line, wanted) => {
    const [first] = refused(npn, line)
    expect(first).toContain('stage.cir, line 3: "')
    expect(first!.toLowerCase()).toContain(wanted.toLowerCase())
  })

  test.each([
    ['.model x NPN(BFF=100)', 'BFF" is not a parameter of a bipolar transistor. Did you mean BF?'],
    ['.model x NPN(NKF=0.5)', 'NKF" is not a parameter of a bipolar transistor.'],
    ['.model x NPN(BF=-1)', 'BF=-1" is not a value it can have. Check its sign and its suffix.'],
    ['.model x NPN(BF=100 BF=200)', 'BF" stands twice. Take one out.'],
    ['.model x NPN(BF)', 'BF" is not a parameter with a number. Write it as BF=200.'],
    ['.model x NPN(LEVEL=4)', 'LEVEL=4" is a model that is not known here. Only level 1 is computed.'],
    [
      '.model x VDMOS(VTO=2)',
      'VDMOS" is not a model type that is known here. Types known: D, NPN, PNP, NJF, PJF, NMOS, PMOS.',
    ],
    ['.model x', '.model x" is not a model card. Write it as .model NAME NPN(IS=1e-14 BF=200).'],
    [
      '.model x NPN(IS=1e-14 ISE=2)',
      'ISE=2" is taken by SPICE as a multiple of IS, being above 1e-4. Write the current in A.',
    ],
    [
      '.model x NMOS(VTO=1 TOX=1e-7)',
      'TOX" gives KP by way of the oxide, which is not computed here. Write KP as well.',
    ],
  ])('%s', (line, wanted) => {
    const [first, ...rest] = refused('R1 a 0 1k', line)
    expect(first).toContain(`stage.cir, line 3: "${wanted}`)
    expect(rest).toEqual([])
  })

  test('a card over several lines is refused at the line of the word', () =>
    expect(refused('R1 a 0 1k', '.model x NPN(IS=1e-14', '+ BF=100', '* a comment', '+ XYZ=1)')[0]).toContain(
      'line 6: "XYZ"',
    ))

  test('everything at once, in the order of the lines; what leans on a refused model is not refused again', () => {
    const all = refused('Q1 a b 0 bad', 'C1 a 0 1u', '.model bad NPN(QQ=1)', 'r1 a 0 1k', 'R1 a 0 2k', '.tran 1 2')
    expect(all.map((s) => /line (\d)/.exec(s)?.[1])).toEqual(['3', '4', '6', '7'])
    expect(all[2]).toContain('"R1" stands for two components. Rename one.')
  })

  test('a programme is refused once, not line by line', () =>
    expect(refused('R1 a 0 1k', '.control', 'run', 'print all', '.endc')).toHaveLength(1))

  test('a card where the title goes', () => {
    expect(() => readNetlist('R1 a 0 1k\nR2 a 0 1k\n')).toThrow(/stands where the title goes/)
    expect(() => readNetlist('nothing below\n')).toThrow(/is followed by no element/)
  })
})

describe('what is known is taken', () => {
  test('comments, continuation, suffixes, capitals, what stands after .end', () => {
    const circuit = readNetlist(
      'stage\n* a comment\nr1 A 0 4.7K ; a resistor\nV1 a 0\n+ DC 9\nD1 a k DX\nRK k 0 1meg\n.MODEL dx D (IS = 1n, N = 2)\n.temp 30\n.options tnom=25 gmin=1e-14\n.op\n.end\nnonsense\n',
    )
    expect(circuit.components.map((c) => ('value' in c ? c.value : c.device))).toEqual([4700, 9, 'dx', 1e6])
    expect(circuit.devices).toEqual({ dx: { kind: 'diode', card: { is: 1e-9, n: 2, tnom: 25 } } })
    expect([circuit.temperatureC, circuit.gminS]).toEqual([30, 1e-14])
  })

  test('capacitances and times of a card say nothing of direct current', () =>
    expect(readModelCard('.model q NPN(IS=1e-14 CJE=5p VJE=0.7 TF=0.3n)')).toEqual({
      name: 'q',
      device: { kind: 'bipolar', polarity: 'npn', card: { is: 1e-14 } },
    }))

  test('names that a language has for itself are names like others', () => {
    const circuit = readNetlist(
      't\nV1 __proto__ 0 1\nD1 __proto__ 0 constructor\nRtoString __proto__ 0 1k\n.model constructor D(IS=1e-14)\n.model __proto__ D\n',
    )
    const point = operatingPoint(circuit)
    expect(point.converged).toBe(true)
    expect(Object.entries(point.nodeVoltages)).toEqual([['__proto__', 1]])
    expect(compileCircuit(circuit).instances[0]!.name).toBe('constructor')
  })
})
