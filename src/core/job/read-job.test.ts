import { describe, expect, test } from 'vitest'
import { FaultError } from '#core/fault'
import { openedCautions } from './cautions.ts'
import {
  type BoardColumn,
  boardColumns,
  columnOf,
  movedTo,
  partOfPosition,
  partsOfPosition,
  progressOf,
  settled,
} from './job.ts'
import { jobExampleYaml } from './job-example.ts'
import { readCircuitOf, readJob } from './read-job.ts'

const faultsOf = (text: string): readonly string[] => {
  try {
    readJob(text, 'job.yaml')
    return []
  } catch (error) {
    if (error instanceof FaultError) return error.message.split('\n')
    throw error
  }
}

describe('a job file', () => {
  test('of the example is read whole', () => {
    const job = readJob(jobExampleYaml)
    expect(job).toMatchObject({ name: 'Hut intercom', power: 'battery', state: 'open', begunOn: '2026-03-20' })
    expect(job.positions.map((p) => [p.ref, p.decision, p.done])).toEqual([
      ['TR1', 'keep', true],
      ['TR2', 'replace', false],
      ['TR3', 'undecided', false],
      ['TR4', 'undecided', false],
    ])
    const { position, wanted } = readCircuitOf(job.positions[0]!.circuit!)
    expect(position).toMatchObject({ template: { id: 'divider' }, supplyV: 9, ohm: { R1: 33_000 } })
    expect(wanted).toEqual({ Q1: { type: 'OC71' } })
  })

  test('may hold a circuit as a text, and parts put aside as one or as a list', () => {
    const circuit =
      '    circuit: |\n      stage: fixed-bias\n      polarity: PNP\n      supply: 9 V\n      values: { RB: 1 Mohm, RC: 4.7 kohm }\n      parts: { Q1: OC71 }\n'
    const job = readJob(`job: A\nreserved: S-1\npositions:\n  T1:\n${circuit}    reserved: [S-2, S-3]\n`)
    expect(job.reserved).toEqual(['S-1'])
    expect(job.positions[0]?.reserved).toEqual(['S-2', 'S-3'])
    expect(readCircuitOf(job.positions[0]!.circuit!).position.template.id).toBe('fixed-bias')
  })

  test('names all its faults by line and field', () => {
    expect(
      faultsOf('job: A\nbegun: 20 March\npositions:\n  TR1:\n    decison: keep\n  TR2:\n    decision: maybe\n'),
    ).toEqual([
      'job.yaml, line 2:8, begun: "20 March" is not a date. Write it as 2026-03-14.',
      'job.yaml, line 5:5, positions.TR1.decison: "decison" is not a key that is known here. Did you mean decision?',
      'job.yaml, line 7:15, positions.TR2.decision: "maybe" is not a word allowed here. Write one of: undecided, keep, replace.',
    ])
  })

  test('names the faults of a circuit where they stand', () => {
    const bad =
      'job: A\npositions:\n  TR1:\n    circuit:\n      stage: divider\n      polarity: PNP\n      supply: nine\n      values: { R1: 33 kohm }\n      parts: {}\n'
    expect(faultsOf(bad)).toEqual([
      expect.stringMatching(/^job\.yaml, line 7:15, positions\.TR1\.circuit\.supply: "nine" .+$/),
    ])
    const lacks = bad.replace('nine', '9 V')
    expect(faultsOf(lacks)[0]).toBe(
      'job.yaml, line 5:7, positions.TR1.circuit: "TR1" cannot be used: the stage divider has no value for R2, the divider, to the common line. Add R2: 6800 ohm under values.',
    )
  })

  test('puts no part aside twice', () =>
    expect(faultsOf('job: A\nreserved: S-1\npositions:\n  T1:\n    reserved: [S-2, S-1]\n')).toEqual([
      'job.yaml, line 5:15, positions.T1.reserved: "S-1" is put aside twice. Leave one of them out.',
    ]))
})

describe('the board', () => {
  test('has a column for each position, and moving there puts it there', () => {
    const position = { ref: 'T1', decision: 'undecided', done: false, reserved: [] } as const
    const order: readonly BoardColumn[] = boardColumns
    for (const column of order) expect(columnOf(settled({ ...position, ...movedTo(column) }))).toBe(column)
    expect(progressOf([position, { decision: 'keep', done: true }, { decision: 'keep', done: false }])).toEqual({
      'to look at': 1,
      keep: 1,
      replace: 0,
      done: 1,
    })
  })

  test('takes a position that is done without a decision for kept, or replaced where something was put in', () => {
    const done = { ref: 'T1', decision: 'undecided', done: true } as const
    expect(settled(done).decision).toBe('keep')
    expect(settled({ ...done, fitted: 'new' }).decision).toBe('replace')
  })

  test('looks at the part that is fitted, else the one put aside to replace, else the one found', () => {
    const p = { ref: 'T1', decision: 'undecided', done: false, reserved: ['S-1'], foundPart: 'F-1' } as const
    expect(partOfPosition(p)).toEqual({ tag: 'F-1', as: 'found' })
    expect(partOfPosition({ ...p, decision: 'replace' })).toEqual({ tag: 'S-1', as: 'reserved' })
    expect(partOfPosition({ ...p, fittedPart: 'S-9' })).toEqual({ tag: 'S-9', as: 'fitted' })
    expect(partsOfPosition({ ...p, fittedPart: 'F-1' })).toEqual([
      { tag: 'S-1', as: 'reserved' },
      { tag: 'F-1', as: 'fitted' },
    ])
    expect(partOfPosition({ ...p, foundPart: undefined as never, reserved: [] })).toBeUndefined()
  })
})

test('cautions of equipment on the mains are given where nobody has said what it runs from', () => {
  const hazards = (power?: 'battery' | 'mains') => openedCautions(power).map((c) => c.hazard)
  expect(hazards()).toEqual(hazards('mains'))
  expect(hazards('mains')).toEqual(
    expect.arrayContaining([
      'mains-operated equipment',
      'charged capacitors',
      'old insulation',
      'toxic ceramic RF parts',
    ]),
  )
  expect(hazards('battery')).not.toContain('mains-operated equipment')
  for (const power of ['battery', 'mains'] as const)
    expect(openedCautions(power).at(-1)?.caution).toMatch(/local codes or licensed practice/)
})
