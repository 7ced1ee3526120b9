import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { exactly, makeStage, rankParts, stageAt, type TransistorNumbers } from '#core/stage'
import { exampleOhm, partsFor, positionOf, transistor } from './positions.ts'

const part = (name: string, gain: number, leakageA: number) =>
  transistor({ name, gain: exactly(gain), leakageA: exactly(leakageA) })

/** A drawer as one looks at it: by its gain and its leakage. */
const drawer = [
  part('good-looking', 190, 1e-6),
  part('plain', 70, 2e-6),
  part('leaky', 75, 1.5e-5),
  part('weak', 25, 2e-6),
  transistor({ name: 'NPN', polarity: 'NPN' }),
]

describe('a whole drawer in a position', () => {
  test('behind a divider of low resistance the leaky part is still fine', () => {
    const position = positionOf('divider', { ohm: { R1: 10e3, R2: 2200, RC: 2200, RE: 1000 } })
    const { ranked, leftOut } = rankParts(position, {}, drawer)
    const leaky = ranked.find((r) => r.part.name === 'leaky')!
    expect(leaky.verdict.word).toBe('works')
    expect(leftOut).toEqual([{ name: 'NPN', why: 'it is NPN, and PNP is wanted' }])
  })

  test('in fixed bias it is not, and neither is the good-looking one: its gain bottoms the collector', () => {
    const position = positionOf('fixed-bias')
    const { ranked } = rankParts(position, {}, drawer)
    const by = Object.fromEntries(ranked.map((r) => [r.part.name, r.verdict]))
    expect(ranked[0]!.part.name).toBe('plain')
    expect(by.leaky).toMatchObject({ word: 'will not', limit: 'room c-0' })
    expect(by['good-looking']).toMatchObject({ word: 'will not', limit: 'room c-0' })
    // counted by hand: 190 times 13 uA through 3.3 kohm is more than the 9 V there are
    expect(((190 * (9 - 0.15)) / 680e3) * 3300).toBeGreaterThan(8)
  })

  test('the best has most room left, at the worst temperature', () => {
    const position = positionOf('divider')
    const { ranked } = rankParts(position, {}, drawer)
    const words = ranked.map((r) => r.verdict.word)
    expect(words).toEqual(
      [...words].sort(
        (a, b) =>
          ['works', 'works but drifts', 'will not'].indexOf(a) - ['works', 'works but drifts', 'will not'].indexOf(b),
      ),
    )
    const working = ranked.filter((r) => r.verdict.word === 'works').map((r) => r.spares[0]!)
    expect(working).toEqual([...working].sort((a, b) => b - a))
    const hot = stageAt(makeStage(position, partsFor(position, ranked[0]!.part)), 50)
    expect(hot.kind === 'point' && Math.min(...hot.point.rooms) > position.demands.swingV).toBe(true)
  })

  test('among a thousand the leaky one is found that is still fine, and the good-looking one that is not', () => {
    const random = new Random(5, 'drawer')
    const between = (low: number, high: number): number => low * (high / low) ** random.uniform()
    const many = Array.from({ length: 1000 }, (_, k) => part(`P${k}`, between(25, 200), between(1e-6, 3e-5)))
    const leaky = (n: TransistorNumbers): boolean => n.leakageA.usual > 1.3e-5
    const lookingGood = (n: TransistorNumbers): boolean => n.gain.usual > 170 && n.leakageA.usual < 3e-6
    const wordsOf = (id: string, ohm: Readonly<Record<string, number>>, of: typeof leaky) =>
      rankParts(positionOf(id, { ohm }), {}, many)
        .ranked.filter((r) => of(r.part as TransistorNumbers))
        .map((r) => r.verdict.word)
    const lowImpedance = wordsOf('divider', { R1: 10e3, R2: 2200, RC: 2200, RE: 1000 }, leaky)
    expect(lowImpedance.length).toBeGreaterThan(100)
    expect(lowImpedance.filter((w) => w === 'works').length).toBeGreaterThan(50)
    const highImpedance = wordsOf('fixed-bias', exampleOhm('fixed-bias'), lookingGood)
    expect(highImpedance.length).toBeGreaterThan(10)
    expect(highImpedance.every((w) => w === 'will not')).toBe(true)
  })
})
