import { describe, expect, test } from 'vitest'
import { forecast, onScale } from './forecast.ts'
import { digitalMeter, type LeadReading } from './meter.ts'
import { simulatedPart } from './simulated-part.ts'
import { testWorth } from './test-worth.ts'
import type { Trial } from './trial.ts'
import { effortOf, untried } from './untried.ts'
import { type Posterior, weigh } from './weigh.ts'

const meter = digitalMeter
const reading = (plus: number, minus: number, volts?: number): LeadReading => ({
  plus,
  minus,
  shows: volts === undefined ? { kind: 'open' } : { kind: 'volts', volts },
})
const worth = (p: Posterior, trial: Trial) =>
  testWorth(p.ranked, { seen: p.seen, trial: onScale(trial), meter, sure: 0.99 })
const sum = (all: Iterable<number>): number => [...all].reduce((s, x) => s + x, 0)

describe('what a test is expected to show', () => {
  const silicon = [reading(1, 2, 0.651), reading(2, 1)]
  const p = weigh(silicon, meter, 3)
  const npn = p.ranked.find(
    ({ hypothesis: h }) =>
      h.condition.key === 'si' && h.named.polarity === 'NPN' && h.order[0] === 0 && h.order[1] === 2,
  )!

  test('adds up to certainty', () => {
    for (const trial of [
      { plus: 0, minus: 2 },
      { plus: 2, minus: 0, range: '2M' },
    ] as const) {
      const { open, chance } = forecast(npn, p.seen, onScale(trial), meter)
      expect(open + sum(chance)).toBeCloseTo(1, 2)
    }
  })

  test('follows what was seen: the other junction drops about as much, within some hundredths of a volt', () => {
    const spread = (w: typeof npn, seen: Posterior['seen']): number => {
      const { chance } = forecast(w, seen, onScale({ plus: 0, minus: 2 }), meter)
      const mean = sum(chance.map((q, k) => q * k)) / sum(chance)
      return Math.sqrt(sum(chance.map((q, k) => q * (k - mean) ** 2)) / sum(chance))
    }
    const before = weigh([], meter, 3)
    const unread = before.ranked.find((w) => w.hypothesis === npn.hypothesis)!
    expect(spread(npn, p.seen)).toBeLessThan(0.5 * spread(unread, before.seen))
  })
})

describe('what a test is worth', () => {
  test('is what it comes to: the truth gains as many bits in the mean as were expected (Lindley 1956)', () => {
    const trial = { plus: 0, minus: 1, joined: 'minus' } as const
    const before = weigh([], meter, 3)
    const { bits } = worth(before, trial)
    const count = 120
    const gained = Array.from({ length: count }, (_, n) => {
      const part = simulatedPart(3, n, 3, meter)
      const of = (p: Posterior): number =>
        p.ranked.find((w) => w.hypothesis === part.truth)?.probability ?? Number.MIN_VALUE
      return Math.log2(of(weigh([part.read(trial)], meter, 3)) / of(before))
    })
    const mean = sum(gained) / count
    const u = Math.sqrt(sum(gained.map((g) => (g - mean) ** 2)) / (count - 1) / count)
    expect(Math.abs(mean - bits), `${mean.toFixed(2)} gained, ${bits.toFixed(2)} expected`).toBeLessThan(3.3 * u)
  })

  test('is nothing for what is known already, and most where it settles the matter', () => {
    const known = weigh([reading(1, 2, 0.002), reading(2, 1, 0.002)], meter, 2)
    for (const trial of untried(known, meter)) expect(worth(known, trial).bits).toBeLessThan(0.02)
    const all = [reading(1, 2, 0.651), reading(1, 3, 0.651), reading(2, 1), reading(3, 1), reading(2, 3), reading(3, 2)]
    const alike = weigh(all, meter)
    const joined = worth(alike, { plus: 2, minus: 1, joined: 'plus' })
    expect(joined.bits).toBeGreaterThan(5 * worth(alike, { plus: 1, minus: 2, range: '2M' }).bits)
    expect(joined.settles).toBeGreaterThan(0.2)
  })

  test('is asked of one pair before anything is read, of all pairs after', () => {
    expect(untried(weigh([], meter, 3), meter).every((t) => t.plus === 0 && t.minus === 1)).toBe(true)
    const after = untried(weigh([reading(1, 2)], meter, 3), meter)
    expect(new Set(after.map((t) => `${t.plus}${t.minus}`)).size).toBe(6)
    expect(effortOf({ plus: 0, minus: 1, joined: 'plus', range: '2M' })).toBeCloseTo(1.15)
  })
})
