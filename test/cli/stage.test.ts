import { describe, expect, test } from 'vitest'
import { germane } from './germane.ts'

const g = germane()

const fixed = `stage: fixed-bias
polarity: PNP
supply: 9 V
values: { RB: 680 kohm, RC: 3.3 kohm }
parts:
  Q1: { name: tight, material: Ge, gain: 70, leakage: 2 uA }
`

/** What a command prints as JSON. */
async function told(args: readonly string[], input?: string) {
  const said = await g.run(['stage', ...args, '--json'], input === undefined ? {} : { input })
  expect(said.err).toBe('')
  return { code: said.code, ...(JSON.parse(said.out) as Record<string, never>) } as Record<string, unknown>
}

describe('germane stage', () => {
  test('reads its own example from standard input', async () => {
    const { out } = await g.run(['stage', '--example'])
    const got = await told(['-', '--count', '50'], out)
    expect(got).toMatchObject({ code: 0, stage: 'divider', part: 'OC71', verdict: { word: 'works' } })
    expect(got.points).toHaveLength(7)
    expect((got.spread as { count: number }).count).toBe(50)
  })

  test('ends with 1 where it will not work, and says at which temperature', async () => {
    const got = await told(['-', '--count', '0'], fixed.replace('2 uA', '12 uA'))
    expect(got).toMatchObject({ code: 1, verdict: { word: 'will not', limit: 'room c-0' } })
    expect((got.verdict as { fails_at: number }).fails_at).toBeGreaterThan(25)
    expect('spread' in got).toBe(false)
  })

  test('looks at a part of the book beside the one the position names, and ranks the drawer', async () => {
    expect((await g.run(['demo', '--book', 'demo.germane'])).code).toBe(0)
    const { out } = await g.run(['stage', '--example'])
    g.write('stage.yaml', out)
    const one = await told(['stage.yaml', '--part', 'OP-6', '--book', 'demo.germane', '--count', '0'])
    expect(one).toMatchObject({ part: 'OP-6', published: { part: 'OC71' } })
    const all = await told(['stage.yaml', '--rank', '--book', 'demo.germane'])
    const ranked = all.ranked as { part: string; verdict: { word: string } }[]
    expect(ranked.map((r) => r.part)).toContain('OP-6')
    expect(all.left_out).toContainEqual({ name: 'OP-8', why: 'it is NPN, and PNP is wanted' })
  })

  test('takes a netlist of its own: looks, ranks, re-biases', async () => {
    const { out } = await g.run(['stage', '--example', 'netlist'])
    g.write('netlist.yaml', out)
    const one = await told(['netlist.yaml', '--count', '20'])
    expect(one).toMatchObject({ code: 0, stage: 'netlist', polarity: 'PNP', part: 'OC45', verdict: { word: 'works' } })
    expect(one.heat).toMatchObject({ warms: {} })
    expect((await g.run(['demo', '--book', 'netlist.germane'])).code).toBe(0)
    const all = await told(['netlist.yaml', '--rank', '--book', 'netlist.germane'])
    expect((all.ranked as { part: string }[]).map((r) => r.part)).toContain('OP-6')
    expect(await told(['netlist.yaml', '--re-bias', '--type', 'BC557'])).toMatchObject({ code: 0, restored: true })
    const none = await g.run(['stage', '-', '--re-bias', '--type', 'BC557'], { input: out.replace(/rebias.*/, '') })
    expect(none).toMatchObject({ code: 2, err: expect.stringMatching(/No resistor of this position may be changed/) })
    const bad = await g.run(['stage', '-'], { input: out.replace('R1 neg b 120k', 'R1 neg 120k') })
    expect(bad).toMatchObject({
      code: 2,
      err: expect.stringMatching(/line 5, netlist: "R1 neg 120k" has no two nodes/),
    })
  })

  test('prints a schema, and refuses an example of no form', async () => {
    expect(JSON.parse((await g.run(['stage', '--schema'])).out)).toMatchObject({ title: 'Position' })
    const bad = await g.run(['stage', '--example', 'circuit'])
    expect(bad).toMatchObject({ code: 2, err: expect.stringMatching(/Write one of: template, netlist/) })
  })

  test('re-biases for silicon, with advice where the polarity is another', async () => {
    const same = await told(['-', '--re-bias', '--type', 'BC557'], fixed)
    expect(same).toMatchObject({ code: 0, restored: true, advice: [] })
    const other = await told(['-', '--re-bias', '--type', 'BC107', '--series', 'E12'], fixed)
    expect((other.advice as string[]).join(' ')).toMatch(/negative/)
  })

  test('draws the stage with what flows and stands in it', async () => {
    for (const name of ['stage.svg', 'stage.png']) {
      const said = await g.run(['stage', '-', '--count', '0', '--drawing', name], { input: fixed })
      expect(said).toMatchObject({ code: 0, err: '' })
      expect(said.out).toContain(`${name} is written.`)
    }
    expect(g.read('stage.svg')).toContain('680 kΩ')
    expect(g.read('stage.svg')).toMatch(/class="amp"[^>]*>[\d.]+ mA</)
    // PNG signature: W3C PNG, 5.2
    expect([...g.bytes('stage.png').subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47])
  })

  test.each([
    [['-', '--rank', '--drawing', 'a.svg'], /--rank and --out were both given/],
    [['-', '--drawing', 'a.gif'], /Let it end in \.svg or \.png/],
    [['-', '--rank', '--re-bias'], /--rank and --re-bias were both given/],
    [['-', '--re-bias'], /Two parts are needed/],
    [['-', '--type', 'BC107'], /wants a PNP transistor/],
    [['-', '--count', 'many'], /not a whole number/],
    [[], /No position was named/],
  ])('%s is refused', async (args, wanted) => {
    const said = await g.run(['stage', ...args], { input: fixed })
    expect(said.code).toBe(2)
    expect(said.err).toMatch(wanted)
  })

  test('lists the stages there are', async () => {
    const got = await told(['--templates'])
    expect((got.templates as { id: string }[]).map((t) => t.id)).toContain('push-pull-thermistor')
  })
})
