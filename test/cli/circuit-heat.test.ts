import { beforeAll, expect, test } from 'vitest'
import reference from '../../src/core/circuit/self-heated-together.ref.json' with { type: 'json' }
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()

beforeAll(() => {
  g.write('pair.cir', reference.circuits['push-pull'])
})

test('parts that heat themselves come to rest where ngspice has them', async () => {
  const wanted = reference.cases.find((c) => c.circuit === 'push-pull' && c.ambientC === 40 && 'Q2' in c.rthKPerW)!
  const args = ['circuit', 'pair.cir', '--rth', 'Q1=25', '--rth', 'Q2=18 K/W', '--temperature', '40']
  const { heat } = oneDocument(await g.run([...args, '--json'])) as {
    heat: { outcome: string; parts: { part: string; junctionC: number }[] }
  }
  expect(heat.outcome).toBe('rest')
  // the setting of the command has k and q of CODATA 2018, and another leak across junctions
  for (const { part, junctionC } of heat.parts)
    expect(junctionC).toBeCloseTo((wanted.junctionC as Record<string, number>)[part]!, 2)
  const said = await g.run(args)
  expect(said).toMatchObject({ code: 0, err: '' })
  expect(said.out).toMatch(/heats itself\s+R_thJA\s+T_J\s+loop gain\s+rests up to\nQ1\s+25 K\/W\s+43\.5\d+ °C/)
})

test('a part that runs away is said instead of a point, and ends with 1', async () => {
  const said = await g.run(['circuit', 'pair.cir', '--rth', 'Q1=120', '--rth', 'Q2=120'])
  expect(said).toMatchObject({ code: 1, err: '' })
  expect(said.out).toMatch(/Q1 runs away: with 120 K\/W to air at 25 °C/)
  expect(said.out).toMatch(/It would rest with up to\s+10\d\.\d+ K\/W/)
  expect(said.out).not.toContain('I_C')
  const sweep = await g.run(['circuit', 'pair.cir', '--rth', 'Q1=106', '--sweep-temperature', '20:80:20'])
  expect(sweep.code).toBe(1)
  expect(sweep.out).toMatch(/T_J of Q1/)
  expect(sweep.out).toContain('Q1 runs away')
})

test('the hottest junction can be set', async () => {
  const args = ['circuit', 'pair.cir', '--rth', 'Q1=60']
  expect((await g.run(args)).code).toBe(0)
  expect((await g.run([...args, '--hottest', '30 C'])).out).toContain('Q1 runs away')
})

test.each([
  [['--rth', 'Q1'], /"Q1" is not a part and its thermal resistance/],
  [['--rth', 'Q1=5 V'], /--rth: "5 V" is a voltage/],
  [['--rth', 'Q1=0'], /--rth/],
  [['--rth', 'Q9=100'], /no device called "Q9"\. Near it/],
  [['--hottest', '90'], /no part heats itself/],
])('%j is refused with a sentence', async (args, say) =>
  expect(refusal(await g.run(['circuit', 'pair.cir', ...args]))).toMatch(say),
)
