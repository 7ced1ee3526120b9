import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Reading } from '#core/tester'
import { type ReportInput, reportModel } from '#report/model'
import { held, outsideReach, pageFaults, sampleLot, samplePart, sampleTypes, transistor } from '#report/testing'
import { reportHtml } from './report-html.ts'

const page = (input: ReportInput): string => reportHtml(reportModel(input))

const pages: readonly (readonly [string, string])[] = [
  ['a lot', page(sampleLot)],
  ['a lot with its workings open', page({ ...sampleLot, workings: 'open' })],
  ['a lot without workings', page({ ...sampleLot, workings: 'none' })],
  ['a part', page(samplePart)],
  ['an empty lot', page({ ...sampleLot, results: [], verdicts: [], readings: [], notes: [] })],
]

describe.each(pages)('the page of %s', (_, text) => {
  test('has balanced tags, headings in order, ids once and links that lead somewhere', () =>
    expect(pageFaults(text)).toEqual([]))

  test('reaches nothing outside and runs nothing', () => expect(outsideReach(text)).toEqual([]))

  test('forbids all but its own style', () =>
    expect(text).toContain(
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">",
    ))

  test('has no stray placeholder', () => expect(text).not.toMatch(/undefined|NaN|\[object|null</))

  test('every table has a caption, every plot a title and a description', () => {
    expect(text.match(/<caption>/g)?.length ?? 0).toBe(text.match(/<table/g)?.length ?? 0)
    expect(text.match(/role="img"[^>]*><title>[^<]+<\/title><desc>[^<]+<\/desc>/g)?.length ?? 0).toBe(
      text.match(/role="img"/g)?.length ?? 0,
    )
  })
})

describe('workings', () => {
  const [part] = reportModel(samplePart).sections
  const numbers = part!.results.length

  test('stand open for one part, folded for a lot, and are left out where not wanted', () => {
    expect(page(samplePart).match(/<details open>/g)).toHaveLength(numbers)
    expect(page(sampleLot).match(/<details open>/g)).toBeNull()
    expect(page(sampleLot).match(/<details>/g)!.length).toBeGreaterThan(numbers)
    expect(page({ ...sampleLot, workings: 'none' })).not.toContain('<details')
  })

  test('show formula, numbers, result and where the doubt comes from', () => {
    const text = page(samplePart)
    expect(text).toContain('<i>h</i><sub>FE0</sub>')
    expect(text).toContain('<span>10.04 mA \u2212 310 \u00b5A</span>')
    expect(text).toContain('Where the doubt in <i>h</i><sub>FE</sub> comes from')
  })
})

test('the page of one part, as it was when it was last looked at', async () => {
  const small = { ...samplePart, readings: samplePart.readings!.slice(0, 2) }
  await expect(page(small)).toMatchFileSnapshot('sample-part.html.golden')
})

/** Text that would do harm if it reached the page as it is. */
const hostile = `"><script>alert(1)</script><img src=x onerror='alert(2)'>&\u0000</title></style><!--`

/** A report in which everything that people type is hostile. */
function hostileReport(x: string): ReportInput {
  const type = { ...sampleTypes.ASY27!, type: x, outline: x, trouble: x, leads: { order: x, view: x } }
  const made = transistor(x, x, [0.01, 0.0002, 1e-4])
  const doubt = { code: 'x', say: x, weight: 'nonsense' } as const
  const parameters = made.parameters.map((p) => ({
    ...p,
    symbol: p.symbol === 'V_BE' ? x : p.symbol,
    doubts: [doubt],
    quantity: {
      ...p.quantity,
      budget: p.quantity.budget.map((t) => ({ ...t, label: x })),
      ...(p.symbol === 'I_CEO' ? { origin: { kind: 'read', what: x, seen: x } as const } : {}),
    },
  }))
  const limit = { symbol: x, min: 60, unit: x, at: { I_C: 0.05 }, note: x }
  const verdict = {
    ...held({ ...parameters[0]!, type: 'ASY27' }, { ...limit, unit: '1' }, 'undecided', 0.5, x),
    settle: x,
    source: x,
  }
  const odd = { ...held({ ...parameters[2]!, type: 'ASY27' }, limit, 'does not conform', 0.5, x), settle: x, source: x }
  const reading: Reading = {
    part: x,
    type: x,
    reads: 'I_CEO',
    shown: { kind: 'value', value: 1, unit: 'A' },
    seen: x,
    range: x,
    scale: x,
    point: 1,
    at: x,
    note: x,
  }
  return {
    title: x,
    printedAt: '1968-11-25',
    tester: { ...sampleLot.tester, name: x, note: x },
    partTypes: { [x]: type },
    results: [
      { ...made, parameters, doubts: [doubt] },
      { ...made, part: `${x}2`, parameters: parameters.map((p) => ({ ...p, part: `${x}2` })) },
    ],
    verdicts: [verdict, odd, { ...odd, part: `${x}2` }],
    notes: [x],
    readings: [reading],
    workings: 'open',
  }
}

describe('what people type', () => {
  const hostilePages = [
    page(hostileReport(hostile)),
    page({ ...hostileReport(hostile), results: hostileReport(hostile).results.slice(0, 1) }),
  ]

  test.each(hostilePages)('cannot bring a tag, an attribute or a program into the page', (text) => {
    expect(pageFaults(text)).toEqual([])
    expect(text).not.toMatch(/<script|<img|<!--/)
    expect(text).not.toContain('\0')
    expect(outsideReach(text.replaceAll(/&lt;.*?&gt;/g, ''))).toEqual([])
  })

  test('is shown as it was typed', () => {
    const shown = '&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;'
    const [lot] = hostilePages
    expect(lot).toContain(`<title>${shown}`)
    expect(lot).toContain(`<h1>${shown}`)
    expect(lot).toContain(`<h3><bdi>${shown}`)
    expect(lot!.split(shown).length).toBeGreaterThan(40)
  })

  test('whatever it is, the page keeps its form', () =>
    fc.assert(
      fc.property(
        fc.oneof(fc.string({ unit: 'binary' }), fc.string(), fc.constantFrom('_', 'h_', '_FE', '^', '(', '= ')),
        (x) => {
          expect(pageFaults(page(hostileReport(x)))).toEqual([])
        },
      ),
      { numRuns: 60 },
    ))
})

describe('a lot of ten thousand', () => {
  const results = Array.from({ length: 10_000 }, (_, i) => ({
    ...transistor(`P${i}`, 'AC128', [0.01, 1e-4 * (1 + (i % 50)), 1e-4]),
  }))
  const limit = sampleTypes.AC128!.limits[0]!
  const verdicts = results.map((r, i) =>
    held(r.parameters[0]!, limit, i % 500 === 0 ? 'does not conform' : 'conforms', 0.97, 'As read.'),
  )
  const text = page({ ...sampleLot, results, verdicts, readings: [], sections: ['P42'] })

  test('gives every part its row, the plots once, and the one section asked for', () => {
    expect(text.match(/<tr><th scope="row">(?:<a[^>]*>)?<bdi>/g)).toHaveLength(10_000)
    expect(text.match(/class="plot once"/g)).toHaveLength(2)
    expect(text.match(/<article/g)).toHaveLength(1)
    expect(text).toContain('1 part of 10,000 has its own section')
  })

  test('stays a page that can be opened', () => expect(text.length).toBeLessThan(12_000_000))
})
