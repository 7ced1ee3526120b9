import { describe, expect, test } from 'vitest'
import { modelCardExample } from '#core/circuit'
import { germane, refusal } from './germane.ts'

const g = germane()
const onLarkfield = ['--type', '2N1305', '--tester', 'larkfield'] as const

interface Rehearsal {
  readonly readings: readonly { readonly part: string; readonly reads: string; readonly seen: string }[]
  readonly truths: readonly {
    readonly symbol: string
    readonly value: number
    readonly read?: { readonly value: number; readonly interval95: readonly [number, number] }
  }[]
}

const rehearsed = async (...more: readonly string[]): Promise<Rehearsal> => {
  g.write('part.mod', modelCardExample)
  const said = await g.run(['rehearse', 'part.mod', ...onLarkfield, '--json', ...more])
  expect(said.code).toBe(0)
  return JSON.parse(said.out) as Rehearsal
}

describe('rehearse FILE', () => {
  test('prints readings that judge takes as they are', async () => {
    g.write('part.mod', modelCardExample)
    const made = await g.run(['rehearse', 'part.mod', ...onLarkfield, '--seed', '4'])
    expect(made).toMatchObject({ code: 0, err: '' })
    expect(made.out).toMatch(/^# Rehearsal, not measured: 2N1305 .*, seed 4, room at 21 degC\.\n/)
    g.write('practice.csv', made.out)
    const judged = await g.run(['judge', 'practice.csv', '--tester', 'larkfield', '--json'])
    expect([0, 1]).toContain(judged.code)
    const symbols = (JSON.parse(judged.out) as { parameters: { symbol: string }[] }).parameters.map((p) => p.symbol)
    expect(symbols).toEqual(expect.arrayContaining(['h_FE', 'h_FE0', 'I_CBO', 'I_CEO', 'V_BE']))
  })

  test('the same seed gives the same document, another seed another tester', async () => {
    const one = await rehearsed('--seed', '7')
    expect(await rehearsed('--seed', '7')).toEqual(one)
    expect((await rehearsed('--seed', '8')).readings).not.toEqual(one.readings)
  })

  test('the truth lies in most intervals', async () => {
    const { truths } = await rehearsed('--parts', '8', '--leakage', 'cb=1.5Mohm')
    const held = truths.filter((t) => t.read !== undefined)
    expect(held.length).toBeGreaterThan(50)
    const inside = held.filter(({ value, read }) => read!.interval95[0] <= value && value <= read!.interval95[1])
    // 95 % are meant; several readings of a part share their errors, so that a few more may be outside together
    expect(inside.length / held.length).toBeGreaterThan(0.9)
  })

  test('parts of one card differ, and have tags of their own', async () => {
    const { readings } = await rehearsed('--parts', '3', '--spread', '40 %')
    const gains = readings.filter((r) => r.reads === 'h_FE' && r.part !== '')
    expect(new Set(gains.map((r) => r.part))).toEqual(new Set(['ge_af-1', 'ge_af-2', 'ge_af-3']))
    expect(new Set(gains.map((r) => r.seen)).size).toBeGreaterThan(2)
  })

  test('--truth prints a table, --out writes the readings', async () => {
    g.write('part.mod', modelCardExample)
    const said = await g.run(['rehearse', 'part.mod', ...onLarkfield, '--truth', '--out', 'kept.csv'])
    expect(said.out).toMatch(/part +parameter +point +truth +read +95 % interval +the truth is/)
    expect(g.read('kept.csv')).toContain('part,type,reads,shown')
  })

  test('says what is wrong with cards and options', async () => {
    g.write('bad.mod', 'R1 a b 3\n.model x NPN(BF=abc)\n')
    g.write('part.mod', modelCardExample)
    const refused = async (...args: readonly string[]) => refusal(await g.run(['rehearse', ...args]))
    const cards = await refused('bad.mod', '--tester', 'larkfield')
    expect(cards).toContain('bad.mod, line 1: "R1 a b 3" is not a model card.')
    expect(cards).toContain('bad.mod, line 2')
    expect(await refused('part.mod', ...onLarkfield, '--leakage', 'ak=3 ohm')).toContain('does not name leads')
    expect(await refused('part.mod', ...onLarkfield, '--parts', '0')).toContain('Give one from 1 to 1000.')
    expect(await refused('part.mod', ...onLarkfield, '--spread', '300 %')).toContain('more than a lot can lie apart')
    expect(await refused('part.mod', '--type', '1N34A', '--tester', 'larkfield')).toContain(
      'The run sheet is for a diode, and the model is that of a bipolar transistor.',
    )
  })
})
