import { beforeAll, describe, expect, test } from 'vitest'
import { germane, oneDocument, refusal } from './germane.ts'

const g = germane()
const book = ['--book', 'kept.germane']
const tester = (...args: readonly string[]) => g.run(['tester', ...args, ...book])

beforeAll(async () => {
  await g.run(['book', 'create', 'kept.germane'])
  g.write('found.csv', (await g.run(['tester', 'found', '--example'])).out)
})

describe('what was found of a tester', () => {
  test('is kept with its day, and judged again from the book', async () => {
    const kept = await tester('found', 'larkfield', 'found.csv', '--keep', '--date', '2026-05-01', '--json')
    const first = oneDocument(kept, [1])
    expect(first).toMatchObject({ format: 'germane/found/1', record: 1 })
    const again = oneDocument(await tester('found', 'larkfield', '--kept', '--json'), [1])
    expect(again.parts).toEqual(first.parts)
    expect(again.ranges).toEqual(first.ranges)
    expect((await tester('found', 'larkfield', '--kept')).out).toContain('Measured on 2026-05-01; of each part')
  })

  test('makes the tester not trusted on the ranges it moves, with the reason', async () => {
    const health = oneDocument(await tester('check', 'larkfield', '--json'), [1])
    const ranges = health.ranges as { range: string; word: string; why: string }[]
    expect(health.word).toBe('not trusted')
    expect(ranges.find((r) => r.range === '10 mA')).toMatchObject({
      word: 'not trusted',
      why: expect.stringMatching(/^As found on 2026-05-01 its parts make it read 9\.16 % high at full scale/),
    })
    expect(ranges.find((r) => r.range === '10 V')?.word).toBe('as described')
  })

  test('a part measured again after its mend takes the place of what it was', async () => {
    g.write('mended.csv', 'part,measured,accuracy\nshunt 10 mA,11.11 ohm,0.3 %\n')
    await tester('found', 'larkfield', 'mended.csv', '--keep', '--date', '2026-05-03', '--note', 'new shunt')
    const health = oneDocument(await tester('check', 'larkfield', '--json'), [1])
    const ranges = health.ranges as { range: string; word: string; why: string }[]
    expect(ranges.find((r) => r.range === '10 mA')).toMatchObject({
      word: 'as described',
      why: expect.stringContaining('As found on 2026-05-03'),
    })
    const before = oneDocument(await tester('found', 'larkfield', '--kept', '--date', '2026-05-02', '--json'), [1])
    const shunt = (before.parts as { part: string; value: number }[]).find((p) => p.part === 'shunt 10 mA')
    expect(shunt?.value).toBeCloseTo(12.1, 9)
  })

  test('is counted when a fault is looked for, where it is asked', async () => {
    const saw = ['--saw', '10 mA: pegged', '--saw', 'others: right', '--saw', 'rest: right']
    type Suspects = { fault: string; place: number }[]
    const firsts = (d: Record<string, unknown>): readonly string[] =>
      (d.suspects as Suspects).filter((s) => s.place === 1).map((s) => s.fault)
    const bare = oneDocument(await tester('diagnose', 'larkfield', ...saw, '--json'))
    expect([...firsts(bare)].sort()).toEqual(['contact 10 mA open', 'shunt 10 mA open'])
    const counted = oneDocument(await tester('diagnose', 'larkfield', ...saw, '--kept', '--json'))
    // the shunt was measured and is there: what is left is the contact
    expect(firsts(counted)).toEqual(['contact 10 mA open'])
    expect(counted.counted).toContain('shunt 10 mA')
  })

  describe('results of readings on such a range', () => {
    const said = /As found on 2026-05-01 the tester.{1,6}s parts make 10\s+mA read 9\.16\s+% high/
    const run = (day: string, tag: string) => {
      const rows = [`${tag},AC128,I_C,25 div,10 mA,${day}`, `${tag},AC128,I_B,25 div,100 uA,${day}`]
      g.write(`${tag}.csv`, `part,type,reads,shown,range,at\n${rows.join('\n')}\n`)
      return g.run(['judge', `${tag}.csv`, '--tester', 'larkfield', '--keep', ...book])
    }
    const stored = async () => {
      const { tables } = oneDocument(await g.run(['book', 'export', ...book])) as { tables: Record<string, unknown> }
      return JSON.stringify([tables.parameter, tables.result])
    }

    test('say so as they are taken and shown, in a report as well; the book keeps them without', async () => {
      expect((await run('2026-05-01T12:00:00Z', 'W1')).out).toMatch(said)
      expect((await g.run(['part', 'show', 'W1', ...book])).out).toMatch(said)
      expect((await g.run(['report', '--part', 'W1', ...book])).out).toMatch(said)
      expect((await g.run(['reduce', 'W1.csv', '--tester', 'larkfield', ...book])).out).toMatch(said)
      expect(await stored()).not.toContain('range-as-found')
      expect((await g.run(['book', 'check', ...book])).code).toBe(0)
    })

    test('say so where it came to light later, and no longer where it was mended before', async () => {
      expect((await run('2026-04-01T12:00:00Z', 'W2')).out).toMatch(/measured after\s+this\s+reading, and nobody knows/)
      expect((await run('2026-05-04T12:00:00Z', 'W3')).out).not.toContain('As found')
    })

    test('say so when they are computed anew, and nothing that is kept changes by it', async () => {
      const before = await stored()
      const volts = [0.2, 0.5, 1].map((v) => `1 V,${v} V,${v} V`).join('\n')
      g.write('volts.csv', `range,reference,shown\n${volts}\n`)
      await tester('calibrate', 'larkfield', 'volts.csv', '--keep')
      const again = oneDocument(await g.run(['book', 'recompute', '--tester', 'larkfield', '--json', ...book]))
      const runs = again.runs as { against?: string[] }[]
      expect(runs.map((r) => r.against?.length ?? 0)).toEqual([1, 1, 0])
      expect((await g.run(['book', 'recompute', '--tester', 'larkfield', ...book])).out).toMatch(/Run 1: As found on/)
      expect(await stored()).toBe(before)
      await g.run(['book', 'recompute', '--tester', 'larkfield', '--apply', ...book])
      expect(await stored()).not.toContain('range-as-found')
      expect((await g.run(['book', 'check', ...book])).code).toBe(0)
    })
  })

  test.each([
    [['found', 'larkfield', 'found.csv', '--kept'], /A file and --kept were both given/],
    [['found', 'larkfield', '--kept', '--keep'], /--keep and --kept were both given/],
    [['found', 'marlpit', '--kept'], /no record of its parts in the book/],
    [['found', 'larkfield', 'found.csv', '--keep', '--date', 'May'], /--date: "May" is not a date/],
  ])('%j is refused', async (args, say) => expect(refusal(await tester(...args))).toMatch(say))
})

describe('check standards', () => {
  const standard = ['drift', '--tester', 'larkfield', '--part', 'CS-9', '--symbol', 'I_CEO']

  beforeAll(async () => {
    for (const [i, shown] of ['12 div', '12.2 div', '11.9 div', '12.1 div'].entries()) {
      const at = `2024-0${i + 1}-01T10:00:00Z`
      g.write(`cs${i}.csv`, `part,type,reads,shown,range,at\nCS-9,unknown,I_CEO,${shown},100 uA,${at}\n`)
      await g.run(['judge', `cs${i}.csv`, '--tester', 'larkfield', '--keep', ...book])
    }
  })

  test('named in the book are charted together, and raise their alarm in the health', async () => {
    const said = await tester(...standard, '--keep', '--high', '30 uA')
    expect(said).toMatchObject({ code: 0, err: '' })
    expect(said.out).toContain('I_CEO of CS-9 is a check standard of Larkfield')
    const charts = oneDocument(await tester('drift', '--tester', 'larkfield', '--json'))
    expect(charts).toMatchObject({ standards: [{ part: 'CS-9', word: 'steady' }] })
    const steady = oneDocument(await tester('check', 'larkfield', '--json'), [1])
    expect(steady.standards).toMatchObject([{ part: 'CS-9', word: 'steady' }])
    await tester(...standard, '--forget')
    await tester(...standard, '--keep', '--high', '20 uA')
    const out = oneDocument(await tester('check', 'larkfield', '--json'), [1])
    expect(out.standards).toMatchObject([{ part: 'CS-9', word: 'out of control' }])
    expect((out.ranges as { word: string }[]).every((r) => r.word === 'not trusted')).toBe(true)
  })

  test.each([
    [[...standard, '--keep'], /I_CEO of CS-9 is a check standard of .* already/],
    [['drift', '--tester', 'marlpit'], /no check standard of the tester called "marlpit"/],
    [['drift', '--tester', 'larkfield', '--keep'], /No part was named/],
    [[...standard, '--keep', '--forget'], /--keep and --forget were both given/],
    [['drift', '--tester', 'larkfield', '--part', 'CS-9', '--symbol', 'V_BE', '--forget'], /V_BE of CS-9/],
  ])('%j is refused', async (args, say) => expect(refusal(await tester(...args))).toMatch(say))
})
