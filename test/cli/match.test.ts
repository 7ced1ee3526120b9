import { describe, expect, test } from 'vitest'
import type { MatchDocument } from '#bench'
import { Random } from '#core/numeric'
import { germane } from './germane.ts'

const g = germane()

/** A table of invented parts with two columns of numbers. */
function table(count: number): string {
  const random = new Random(11, 'table')
  const rows = Array.from(
    { length: count },
    (_, i) => `P${i},${random.uniform().toFixed(6)},${random.uniform().toFixed(6)}`,
  )
  return `tag,a,b\n${rows.join('\n')}\n`
}

const by = ['--by', 'a:0.1,b:0.1']

async function matched(args: readonly string[], input?: string): Promise<MatchDocument> {
  const said = await g.run(['match', ...args, '--json'], input === undefined ? {} : { input })
  expect(said.err).toBe('')
  return JSON.parse(said.out) as MatchDocument
}

describe('germane match', () => {
  test('proves quads of some dozens of parts, from standard input', async () => {
    const got = await matched(['-', '--size', '4', ...by], table(32))
    expect(got.sets).toHaveLength(8)
    expect(got.proof.kind).toBe('optimal')
  })

  test('proves pairs of a thousand parts in a thread of its own', async () => {
    const got = await matched(['-', ...by], table(1000))
    expect(got.sets).toHaveLength(500)
    expect(got.proof.kind).toBe('optimal')
  })

  test('Ctrl-C ends a long search with the best so far and what is proven of it', async () => {
    const file = g.write('many.csv', table(6000))
    const talk = g.start(['match', file, '--size', '4', ...by, '--json'])
    // long enough to have begun, far from long enough to be done
    await new Promise((keep) => setTimeout(keep, 4000))
    talk.child.kill('SIGINT')
    const said = await talk.ended
    expect(said.code).toBe(0)
    const got = JSON.parse(said.out) as MatchDocument
    expect(got.sets).toHaveLength(1500)
    expect(got.proof.kind).toBe('bound')
  })

  test('prints a request that gives the same answer as a file', async () => {
    const file = g.write('parts.csv', table(12))
    const printed = await g.run(['match', '--print-request', '--within', 'a:0.2', '--sets', '3', ...by])
    const request = g.write('request.yaml', printed.out)
    const [said, read] = [
      await matched([file, '--within', 'a:0.2', '--sets', '3', ...by]),
      await matched([file, '--request', request]),
    ]
    expect(read).toEqual(said)
    expect((await matched([file, '--request', request, '--sets', '1'])).sets).toHaveLength(1)
  })

  test('matches parts of a book with their doubts, and leaves out those that are gone', async () => {
    await g.run(['demo', '--book', 'demo.germane'])
    await g.run(['part', 'edit', 'OP-3', '--status', 'used', '--book', 'demo.germane'])
    const got = await matched(['--book', 'demo.germane', '--by', 'ln(h_FE):0.1', '--within', 'ln(h_FE):0.5'])
    expect(got.notes).toEqual(['1 part is bad, used or gone, and no choice.'])
    expect(got.sets.flatMap((one) => one.tags)).not.toContain('OP-3')
    for (const one of got.sets) expect(one.probability).toBeGreaterThan(0)
  })

  test.each([
    [['--by', 'a'], /./, 0],
    [['--by', 'q:1'], /is not a column of the table/, 2],
    [['--by', 'a:0'], /has no number above 0 after the colon/, 2],
    [['--by', 'a:1', '--between', 'a:x..2'], /is no window/, 2],
    [['--by', 'a:1', '--together', 'P1+P77'], /P77/, 2],
    [['--by', 'a:1', '--together', 'P1+P2+P3'], /more parts than a set/, 2],
    [['--by', 'a:1', '--want', 'diode-quat'], /diode-quad/, 2],
    [['--by', 'a:1,b:1', '--grades', 'x,y'], /is not one parameter/, 2],
    [['--by', 'a:1', '--grades', 'x,y', '--how', 'odd'], /natural/, 2],
    [[], /Nothing was named to match by/, 2],
  ] as const)('says what is wrong: %j', async (args, words, code) => {
    const file = g.write('small.csv', table(6))
    const said = await g.run(['match', file, ...args])
    expect(said.code).toBe(code)
    expect(code === 0 ? said.out : said.err).toMatch(words)
  })
})
