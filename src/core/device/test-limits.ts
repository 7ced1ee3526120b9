import type { PartType } from './part-type.ts'

/** A bound that a test of a type must not pass, and how it was found. */
export interface TestBound {
  /** V or A, as the function says. */
  readonly value: number
  /** For people: `published V_CEO`. */
  readonly how: string
  /** Whether it is a published rating as it stands. */
  readonly published: boolean
}

/**
 * Exponent n of V_CEO = V_CBO / h_FE^(1/n) (from memory: Sze; Millman and Halkias), the low end of what is known, so
 * that the estimate stays on the safe side. `common practice` in that use.
 */
export const breakdownExponent = { Ge: 3, NPN: 4, PNP: 2 } as const

/** Gain taken for the estimate where none is published; `common practice`. */
const usualGain = 100

const published = (value: number, name: string): TestBound => ({ value, how: `published ${name}`, published: true })

function lowest(bounds: readonly TestBound[]): TestBound | undefined {
  return bounds.reduce<TestBound | undefined>((a, b) => (a === undefined || b.value < a.value ? b : a), undefined)
}

function ratingsOf(
  t: PartType,
  names: readonly ('V_CEO' | 'V_PT' | 'V_R' | 'V_RRM' | 'I_F' | 'I_F(AV)')[],
): TestBound[] {
  return names.flatMap((n) => {
    const v = t.ratings[n]
    return v === undefined ? [] : [published(v, n)]
  })
}

/** Breakdown voltages with open base that are published as limits. */
const openBaseBreakdown = (t: PartType): TestBound[] =>
  t.limits.flatMap((l) =>
    (l.symbol === 'V_(BR)CEO' || l.symbol === 'V_CEO(sus)') && l.min !== undefined ? [published(l.min, l.symbol)] : [],
  )

/** V_CEO worked out from the other ratings and the gain, not below a V_CE at which the gain itself is published. */
function openBaseEstimate(t: PartType): TestBound[] {
  const { V_CES, V_CER, V_CBO } = t.ratings
  const upperV = Math.min(...[V_CES, V_CER, V_CBO].filter((v) => v !== undefined))
  if (!Number.isFinite(upperV)) return []
  const gains = t.limits.filter((l) => l.symbol === 'h_FE' || l.symbol === 'h_fe')
  const gain = Math.max(1, ...gains.flatMap((l) => [l.min, l.typ, l.max]).filter((v) => v !== undefined))
  const n = t.material === 'Ge' ? breakdownExponent.Ge : breakdownExponent[t.polarity === 'NPN' ? 'NPN' : 'PNP']
  const byLawV = upperV / (gain === 1 ? usualGain : gain) ** (1 / n)
  const usedV = Math.max(0, ...gains.map((l) => l.at.V_CE ?? 0))
  const how =
    usedV > byLawV
      ? 'V_CEO is not published: the V_CE at which its gain is published is taken'
      : 'V_CEO is not published: it is worked out from the other ratings and the gain, V_CBO / h_FE^(1/n)'
  return [{ value: Math.min(upperV, Math.max(byLawV, usedV)), how, published: false }]
}

/**
 * Highest collector-emitter voltage a bipolar transistor may see with open base, V: the lowest of V_CEO, breakdown
XX
 *
 * @returns undefined where no voltage is published at all
 * @example collectorLimitV(oc71)?.value // 7.1, from V_CBO 30 V and h_fe at most 75
 */
export function collectorLimitV(t: PartType): TestBound | undefined {
  const stated = [...ratingsOf(t, ['V_CEO']), ...openBaseBreakdown(t)]
  return lowest([...(stated.length > 0 ? stated : openBaseEstimate(t)), ...ratingsOf(t, ['V_PT'])])
}

/**
 * Highest collector-base voltage with open emitter, V: V_CBO, or the highest published collector-emitter rating, which
 * never passes it.
 */
export function collectorBaseLimitV(t: PartType): TestBound | undefined {
  for (const name of ['V_CBO', 'V_CES', 'V_CER', 'V_CEO'] as const) {
    const v = t.ratings[name]
    if (v !== undefined)
      return name === 'V_CBO'
        ? published(v, name)
        : { ...published(v, name), how: `V_CBO is not published: the published ${name} is taken` }
  }
  return undefined
}

/** Highest emitter-base reverse voltage, V. */
export const emitterLimitV = (t: PartType): TestBound | undefined =>
  t.ratings.V_EBO === undefined ? undefined : published(t.ratings.V_EBO, 'V_EBO')

/** Highest reverse voltage of a diode, V; undefined for a Zener diode, which is meant to break down. */
export const reverseLimitV = (t: PartType): TestBound | undefined =>
  t.family === 'zener' ? undefined : lowest(ratingsOf(t, ['V_R', 'V_RRM']))

/**
 * Highest continuous current, A: collector current of a transistor, forward current of a diode, reverse current of a
 * Zener diode (rated power over highest V_Z where I_ZM is not published), on-state or drain current of the others.
 */
export function currentLimitA(t: PartType): TestBound | undefined {
  switch (t.family) {
    case 'bjt':
      return t.ratings.I_C === undefined ? undefined : published(t.ratings.I_C, 'I_C')
    case 'diode':
      return lowest(ratingsOf(t, ['I_F', 'I_F(AV)']))
    case 'zener':
      return other(t, ['I_ZM']) ?? zenerCurrent(t)
    case 'scr':
    case 'triac':
      return other(t, ['I_T(AV)', 'I_T(RMS)'])
    case 'jfet':
    case 'mosfet':
      return other(t, ['I_D'])
    case 'ujt':
      return other(t, ['I_E(RMS)'])
  }
}

function other(t: PartType, names: readonly string[]): TestBound | undefined {
  return lowest(
    names.flatMap((n) => {
      const v = t.ratings.other?.[n]
      return v === undefined ? [] : [published(v, n)]
    }),
  )
}

function zenerCurrent(t: PartType): TestBound | undefined {
  const voltageV = Math.max(...t.limits.flatMap((l) => (l.symbol === 'V_Z' ? [l.max ?? l.typ ?? 0] : [])), 0)
  const powerW = Math.min(...t.ratings.power.map((p) => p.powerW))
  if (voltageV === 0 || !Number.isFinite(powerW)) return undefined
  return { value: powerW / voltageV, how: 'I_ZM is not published: rated power over the highest V_Z', published: false }
}
