import { describe, expect, test } from 'vitest'
import { germane, refusal } from './germane.ts'

const g = germane()

interface Told {
  readonly code: number | null
  readonly for: string
  readonly hottest: number
  readonly candidates: readonly {
    readonly name: string
    readonly part: boolean
    readonly standing: string
    readonly availability?: string
    readonly in_drawer?: number
    readonly stage?: { readonly verdict: { readonly word: string }; readonly changes?: readonly { ref: string }[] }
  }[]
  readonly refused: readonly { readonly name: string; readonly what: string }[]
  readonly nearest?: { readonly name: string }
}

/** What a command prints as JSON. */
async function told(args: readonly string[], input?: string): Promise<Told> {
  const said = await g.run(['standin', ...args, '--json'], input === undefined ? {} : { input })
  expect(said.err).toBe('')
  return { ...(JSON.parse(said.out) as Told), code: said.code }
}

describe('germane standin', () => {
  test('finds what stands in for a type, and ends with 1 where nothing does', async () => {
    const some = await told(['OC71'])
    expect(some).toMatchObject({ code: 0, for: 'OC71' })
    expect(some.candidates[0]).toMatchObject({ name: '2N525', standing: 'stands in', part: false })
    const none = await told(['1N5408'])
    expect(none).toMatchObject({ code: 1, candidates: [], nearest: { name: '1N5407' } })
    const { out } = await g.run(['standin', '1N5408'])
    expect(out).toContain('No candidate. The nearest is 1N5407: it fails by V_R 800 V where 1 kV is needed.')
  })

  test('reads its own example from standard input, and says what has to change for silicon', async () => {
    const { out } = await g.run(['standin', '--example'])
    const got = await told(['--position', '-'], out)
    expect(got.for).toBe('OC71')
    expect(got.candidates.find((c) => c.name === 'BC557')?.stage).toMatchObject({
      verdict: { word: 'works' },
      changes: [{ ref: 'R2' }],
    })
    g.write('stage.yaml', out)
    const hot = await told(['--position', 'stage.yaml', '--ambient', '70 C'])
    expect(hot.hottest).toBe(70)
    const drifting = hot.candidates.filter((c) => c.stage?.verdict.word !== 'works')
    expect(drifting.length).toBeGreaterThan(got.candidates.filter((c) => c.stage?.verdict.word !== 'works').length)
    const other = await told(['AC125', '--position', '-'], out)
    expect(other.for).toBe('AC125')
  })

  test('has the parts of the drawer with what was measured of them, and the marks of the book', async () => {
    expect((await g.run(['demo', '--book', 'demo.germane'])).code).toBe(0)
    const marked = await g.run(['type', 'mark', '2n1305', 'scarce', '--book', 'demo.germane'])
    expect(marked).toMatchObject({ code: 0, out: '2N1305 is marked as scarce.\n' })
    const both = await told(['2N1303', '--voltage', '9 V', '--book', 'demo.germane'])
    expect(both.candidates.find((c) => c.name === '2N1305')).toMatchObject({
      availability: 'scarce',
      in_drawer: expect.any(Number),
    })
    const own = await told(['2N1303', '--voltage', '9 V', '--from', 'drawer', '--book', 'demo.germane'])
    expect(own.candidates.length).toBeGreaterThan(0)
    expect(own.candidates.every((c) => c.part)).toBe(true)
    // OP-5 is of that type, and was found shorted
    const alike = await told(['2N1305', '--from', 'drawer', '--book', 'demo.germane'])
    expect(alike.candidates.map((c) => c.name)).toContain('OP-1')
    expect([...alike.candidates, ...alike.refused].map((c) => c.name)).not.toContain('OP-5')
    const catalog = await told(['2N1303', '--voltage', '9 V', '--from', 'catalog', '--book', 'demo.germane'])
    expect(catalog.candidates.some((c) => c.part)).toBe(false)
    const cleared = await g.run(['type', 'mark', '2N1305', 'none', '--book', 'demo.germane'])
    expect(cleared.out).toBe('2N1305 has no mark.\n')
  })

  test('shows one candidate in full, refused or not, and draws its leads', async () => {
    const one = await g.run(['standin', 'bc557', '--with', '2sa1015', '--plot', 'leads.svg'])
    expect(one.out).toContain('Cross its C and B leads')
    expect(g.read('leads.svg')).toMatch(/^<svg[\s\S]*Leads of 2SA1015 for BC557/)
    const refused = await g.run(['standin', 'BC557', '--with', 'BC559'])
    expect(refused.code).toBe(1)
    expect(refused.out).toContain('BC559 for BC557: x refused')
    expect((await g.run(['standin', 'BC557', '--plot', 'leads.png'])).code).toBe(0)
  })

  test.each([
    [['TIC106D'], /TIC106D/],
    [['2N2646'], /2N2646 is no bipolar transistor or diode\./],
    [['OC7'], /no part type called "OC7"\. Near it: .*OC7/],
    [[], /Nothing is said of what to find a stand-in for\. Give a type number/],
    [['OC71', '--with', 'BC55X'], /no candidate called "BC55X"/],
    [['OC71', '--voltage', '3 mA'], /"3 mA" is a current, not a voltage/],
    [['OC71', '--count', 'few'], /--count.*is not a whole number/],
    [['OC71', '--from', 'shop'], /--from.*both, catalog, drawer/],
    [['--position', 'stage.yaml', '--ambient', '-5 C'], /-5 °C, is not above the coldest of the position, 0 °C/],
    [['OC71', '--plot', 'leads.doc'], /is no name of a picture/],
    [['OC71', '--from', 'drawer', '--book', 'nowhere.germane'], /nowhere\.germane/],
  ] as const)('refuses %j with a sentence that names the mend', async (args, sentence) => {
    expect(refusal(await g.run(['standin', ...args]))).toMatch(sentence)
  })
})
