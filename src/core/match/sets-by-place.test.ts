import { describe, expect, test } from 'vitest'
import { Random } from '#core/numeric'
import { matchParts } from './match-parts.ts'
import { type MatchPart, matchRequestSchema } from './request.ts'

const aims = [70, 110, 160] as const

const request = (sets?: number, within?: number) =>
  matchRequestSchema.parse({
    size: 3,
    ...(sets === undefined ? {} : { sets }),
    by: [{ name: 'hfe', scale: 10, ...(within === undefined ? {} : { within: { absolute: within } }) }],
    places: aims.map((hfe, i) => ({ name: `stage ${i + 1}`, aim: { hfe } })),
  })

const gains = (count: number, seed: number): readonly number[] => {
  const random = new Random(seed, 'gains')
  return Array.from({ length: count }, () => Math.round(50 + 140 * random.uniform()))
}

const partsOf = (x: readonly number[]): readonly MatchPart[] =>
  x.map((hfe, i) => ({ tag: `P${String(i).padStart(2, '0')}`, values: { hfe } }))

/** The most sets, and their least cost, by trying every way to give parts to places or leave them. */
function byTrying(x: readonly number[], most: number, within: number): readonly [sets: number, cost: number] {
  let best: readonly [number, number] = [0, 0]
  const counts = [0, 0, 0]
  const go = (i: number, cost: number): void => {
    if (i === x.length) {
      const [a, b, c] = counts as [number, number, number]
      if (a !== b || b !== c || a > most) return
      if (a > best[0] || (a === best[0] && cost < best[1])) best = [a, cost]
      return
    }
    go(i + 1, cost)
    for (const [place, aim] of aims.entries()) {
      const apart = Math.abs(x[i]! - aim)
      if (apart > within) continue
      counts[place]!++
      go(i + 1, cost + apart / 10)
      counts[place]!--
    }
  }
  go(0, 0)
  return best
}

describe('sets by place', () => {
  test('are as many and as near to what is wanted as the best of all choices', () => {
    for (let seed = 1; seed <= 25; seed++) {
      const x = gains(8, seed)
      for (const [sets, within] of [
        [undefined, undefined],
        [1, undefined],
        [undefined, 25],
      ] as const) {
        const [count, cost] = byTrying(x, sets ?? 8, within ?? Number.POSITIVE_INFINITY)
        const got = matchParts(partsOf(x), request(sets, within))
        expect(got.sets).toHaveLength(count)
        expect(got.totalCost).toBeCloseTo(cost, 9)
        expect(got.proof.kind).toBe('optimal')
      }
    }
  })

  test('name the parts in the order of the places', () => {
    const got = matchParts(partsOf([160, 70, 110, 300]), request())
    expect(got.sets.map((one) => one.tags)).toEqual([['P01', 'P02', 'P00']])
    expect(got.totalCost).toBe(0)
    expect(got.leftOver).toEqual([{ tag: 'P03', why: 'no set left that it could be in' }])
  })
})
