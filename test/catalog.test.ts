import { beforeAll, describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import {
  collectorLimitV,
  conditionSymbols,
  explainTypeNumber,
  letterSymbols,
  type PartType,
  partTypesFromData,
  plainTypeName,
  provenanceText,
  ratingUnits,
} from '#core/device'

let catalog: readonly PartType[]
let published: readonly PartType[]
let zeners: readonly PartType[]

beforeAll(async () => {
  catalog = await loadCatalog()
  zeners = catalog.filter((t) => t.family === 'zener')
  published = catalog.filter((t) => t.family !== 'zener')
})

describe('nothing is lost', () => {
  test('305 types with 1525 limits, 15 of them with identity alone', () => {
    expect(published).toHaveLength(305)
    expect(published.flatMap((t) => t.limits)).toHaveLength(1525)
    expect(published.filter((t) => t.limits.length === 0).map((t) => t.type)).toEqual(
      '2SB54 2SB56 2SB75 2SB77 2SB175 2SA49 2SA50 2SA51 2SA52 2SA53 2SD72 AU106 2N255 2N456 2SC710'.split(' '),
    )
  })

  test('113 Zener diodes, and the 14 JAN -1 versions among them', () => {
    const jan = zeners.filter((t) => t.type.endsWith('A-1'))
    expect(jan).toHaveLength(14)
    expect(zeners).toHaveLength(113 + jan.length)
  })

  test('numbers of types by family', () => {
    const count = (f: string): number => catalog.filter((t) => t.family === f).length
    expect(['bjt', 'diode', 'scr', 'triac', 'jfet', 'mosfet', 'ujt'].map(count)).toEqual([234, 32, 18, 7, 8, 2, 4])
    expect(published.filter((t) => t.material === 'Ge')).toHaveLength(96)
  })
})

describe('every record', () => {
  test('reads back from its own form unchanged', () => {
    expect(partTypesFromData(structuredClone(catalog))).toEqual(catalog)
  })

  test('has a number of its own', () => {
    expect(new Set(catalog.map((t) => plainTypeName(t.type))).size).toBe(catalog.length)
  })

  test('has symbols, units and conditions that are known', () => {
    const strange = catalog.flatMap((t) =>
      t.limits.filter(
        (l) =>
          letterSymbols[l.symbol]?.unit !== l.unit ||
          Object.keys(l.at).some((c) => !(conditionSymbols as readonly string[]).includes(c)),
      ),
    )
    expect(strange).toEqual([])
  })

  test('has bounds in order, and magnitudes; only drift and temperatures have a sign', () => {
    const wrong = catalog.flatMap((t) =>
      t.limits.filter((l) => {
        const values = [l.min, l.typ, l.max].filter((v) => v !== undefined)
        const sorted = values.every((v, i) => i === 0 || v >= values[i - 1]!)
        const signed = l.symbol.startsWith('alpha') ? [] : values
        const at = Object.entries(l.at).flatMap(([k, v]) => (k === 'T' ? [] : [v]))
        return values.length === 0 || !sorted || [...signed, ...at].some((v) => v < 0)
      }),
    )
    expect(wrong).toEqual([])
  })

  test('names makers, standards or handbooks as its source, and no address', () => {
    const strange = catalog
      .flatMap((t) => t.provenance.where)
      .filter((w) => !/^transcribed copy of (the maker's datasheet|the JAN specification sheet|MIL-)/.test(w))
    expect(strange).toEqual([])
    expect(JSON.stringify(catalog)).not.toMatch(/https?:|www\.|\.com\b|wiki/i)
  })

  test('says "from memory: check the datasheet" where it was not read', () => {
    const memory = catalog.filter((t) => t.provenance.kind === 'memory')
    expect(memory.length).toBeGreaterThan(180)
    expect(memory.every((t) => provenanceText(t.provenance).startsWith('from memory: check the datasheet'))).toBe(true)
    const read = catalog.filter((t) => t.provenance.kind === 'read')
    expect(read.every((t) => t.provenance.where.length > 0)).toBe(true)
    expect(catalog.filter((t) => t.provenance.confidence === 'low')).toHaveLength(26)
  })

  test('has a test voltage below its published V_CEO, had V_CEO not been published', () => {
    const estimated = catalog
      .filter((t) => t.family === 'bjt' && t.ratings.V_CEO !== undefined && t.ratings.V_CBO !== undefined)
      .map((t) => {
        const { V_CEO, V_PT, ...ratings } = t.ratings
        const limits = t.limits.filter((l) => l.symbol !== 'V_(BR)CEO' && l.symbol !== 'V_CEO(sus)')
        return { type: t.type, V_CEO: V_CEO!, estimate: collectorLimitV({ ...t, ratings, limits })!.value }
      })
    expect(estimated.length).toBeGreaterThan(150)
    expect(estimated.filter((e) => e.estimate > e.V_CEO).map((e) => e.type)).toEqual([])
  })

  test('has ratings that are known', () => {
    const known = [...Object.keys(ratingUnits), 'power', 'other']
    expect(catalog.flatMap((t) => Object.keys(t.ratings)).filter((k) => !known.includes(k))).toEqual([])
  })
})

describe('gain ranks', () => {
  test('the sentence says what the ranks hold', () => {
    const ranked = catalog.filter((t) => t.gainRanks !== undefined)
    expect(ranked).toHaveLength(26)
    for (const t of ranked) {
      const { at, ranks } = t.gainRanks!
      const text = ranks.map((r) => `${r.suffix} ${r.min} to ${r.max}`).join(', ')
      expect(t.gainGroups).toBe(`${text} at I_C ${at.I_C! * 1000} mA, V_CE ${at.V_CE} V`)
    }
  })
})

/** Types whose number fits no scheme. */
const noScheme: readonly string[] = []

describe('type numbers', () => {
  test('every number fits a scheme', () => {
    const silent = catalog.filter((t) => explainTypeNumber(t.type).length === 0).map((t) => t.type)
    expect(silent).toEqual(noScheme)
  })

  test('what a scheme says for sure of material, polarity and family agrees with the record', () => {
    const against = catalog.flatMap((t) =>
      explainTypeNumber(t.type)
        .filter((r) => r.sure)
        .filter(
          (r) =>
            (r.material !== undefined && r.material !== t.material) ||
            (r.polarity !== undefined && r.polarity !== t.polarity) ||
            (r.families !== undefined && !r.families.includes(t.family)),
        )
        .map((r) => `${t.type}: ${r.scheme}`),
    )
    expect(against).toEqual([])
  })

  test('no scheme but the Japanese one tells polarity, and OC never does', () => {
    const telling = catalog.flatMap((t) => explainTypeNumber(t.type).filter((r) => r.polarity !== undefined))
    expect(new Set(telling.map((r) => r.scheme))).toEqual(new Set(['jis']))
    expect(catalog.filter((t) => /^OC1[34]/.test(t.type)).map((t) => t.polarity)).toEqual(['NPN', 'NPN'])
    expect(catalog.filter((t) => /^OC[2-8]/.test(t.type)).every((t) => t.polarity === 'PNP')).toBe(true)
  })

  test('a doubtful reading contradicts the record only where that is known', () => {
    const against = catalog.flatMap((t) =>
      explainTypeNumber(t.type)
        .filter((r) => !r.sure)
        .filter((r) => r.families !== undefined && !r.families.includes(t.family))
        .map((r) => `${t.type}: ${r.scheme}`),
    )
    // C106 and a letter is a thyristor of General Electric; as a marking it could be 2SC106.
    expect(against).toEqual('QYFABCDEM'.split('').map((letter) => `C106${letter}: jis`))
  })
})
