import { beforeAll, describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import type { PartType } from '#core/device'
import facts from './reference/kicad-facts.json' with { type: 'json' }

type Value = number | string | readonly number[]

interface Fact {
  readonly symbol: string
  /** Types a symbol of a whole series stands for. */
  readonly types?: readonly string[]
  readonly order: string
  readonly polarity?: string
  readonly outline?: string
  readonly ratings: Readonly<Record<string, Value>>
}

const records = facts.records as readonly Fact[]
let byName: ReadonlyMap<string, PartType>

beforeAll(async () => {
  byName = new Map((await loadCatalog()).map((t) => [t.type, t]))
})

/** What the catalog has for a rating that KiCad's text names; empty where it is not published. */
function inCatalog(t: PartType, rating: string): readonly number[] {
  const r = t.ratings
  const all: Readonly<Record<string, readonly (number | undefined)[]>> = {
    V_CE: [r.V_CEO],
    I_C: [r.I_C],
    V: [r.V_R, r.V_RRM],
    I: [r.I_F, r['I_F(AV)']],
    P: r.power.map((p) => p.powerW),
    V_DS: [r.other?.V_DSS],
    V_GS: [r.other?.V_GSS],
    I_D: [r.other?.I_D],
    V_DRM: [r.other?.V_DRM],
    I_T: [r.other?.['I_T(RMS)']],
  }
  return all[rating]!.filter((v) => v !== undefined)
}

const agrees = (kicad: Value, ours: readonly number[]): boolean =>
  typeof kicad === 'object'
    ? ours.some((v) => kicad[0]! <= v && v <= kicad[1]!)
    : ours.some((v) => Math.abs(v - Number(kicad)) <= 1e-9 * v)

interface Compared {
  readonly type: string
  readonly about: string
  readonly kicad: Value
  readonly agrees: boolean
  /** The nearest value of the catalog. */
  readonly catalog: Value | undefined
}

function compare(fact: Fact, t: PartType): readonly Compared[] {
  const rows: Compared[] = [
    { type: t.type, about: 'order', kicad: fact.order, agrees: fact.order === t.leads?.order, catalog: t.leads?.order },
  ]
  if (fact.outline !== undefined) {
    const ours = (t.outline ?? '').match(/[A-Z]+-\d+[A-Z]*/g) ?? []
    rows.push({
      type: t.type,
      about: 'outline',
      kicad: fact.outline,
      agrees: ours.some((o) => o === fact.outline),
      catalog: t.outline,
    })
  }
  if (fact.polarity !== undefined)
    rows.push({
      type: t.type,
      about: 'polarity',
      kicad: fact.polarity,
      agrees: fact.polarity === t.polarity,
      catalog: t.polarity,
    })
  for (const [rating, kicad] of Object.entries(fact.ratings)) {
    const ours = inCatalog(t, rating)
    if (ours.length > 0)
      rows.push({ type: t.type, about: rating, kicad, agrees: agrees(kicad, ours), catalog: Math.max(...ours) })
  }
  return rows
}

const compareAll = (): readonly Compared[] =>
  records.flatMap((fact) => (fact.types ?? [fact.symbol]).flatMap((name) => compare(fact, byName.get(name)!)))

describe('catalog against the KiCad symbols', () => {
  test('every symbol is of a type in the catalog', () => {
    expect(records.flatMap((f) => f.types ?? [f.symbol]).filter((n) => !byName.has(n))).toEqual([])
    expect(records).toHaveLength(70)
  })

  test('they disagree exactly where the list says', () => {
    const found = compareAll()
      .filter((c) => !c.agrees)
      .map(({ type, about, kicad, catalog }) => ({ type, about, kicad, catalog }))
    const listed = facts.disagreements.map(({ type, about, kicad, catalog }) => ({ type, about, kicad, catalog }))
    const sorted = (list: readonly { type: string; about: string }[]): unknown[] =>
      [...list].sort((a, b) => `${a.type} ${a.about}`.localeCompare(`${b.type} ${b.about}`))
    expect(sorted(found)).toEqual(sorted(listed))
  })

  test('every listed disagreement says which side is right and why', () => {
    const wrong = facts.disagreements.filter(
      (d) => !['catalog', 'both', 'not settled', 'kicad'].includes(d.right) || d.why.length < 20,
    )
    expect(wrong).toEqual([])
  })

  test('a list entry that no longer holds would be noticed', () => {
    const agreeing = compareAll().filter((c) => c.agrees)
    expect(agreeing.length).toBeGreaterThan(250)
    const bc547 = records.find((f) => f.symbol === 'BC547')!
    const changed = compare({ ...bc547, order: 'E-B-C', ratings: { V_CE: 60, I_C: 0.1 } }, byName.get('BC547')!)
    expect(changed.filter((c) => !c.agrees).map((c) => c.about)).toEqual(['order', 'V_CE'])
  })
})
