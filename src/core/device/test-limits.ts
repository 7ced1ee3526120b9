import type { HeatRatings } from '#core/physics'
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
 * Shares of other ratings taken for the collector voltage with open base where V_CEO is not published. `common
 * practice`, on the safe side: avalanche breakdown falls by a factor of 2 to 3 when the base is left open, less where
 * the rating already has a resistor to the base.
 */
export const openBaseShare = { V_CER: 1 / 2, V_CES: 1 / 3, V_CBO: 1 / 3 } as const

/** Highest junction temperature taken where none is published, degC, by material; `common practice`. */
export const usualJunctionC = { Ge: 75, Si: 125, GaAs: 125 } as const

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

function openBaseEstimate(t: PartType): TestBound[] {
  for (const name of ['V_CER', 'V_CES', 'V_CBO'] as const) {
    const v = t.ratings[name]
    if (v === undefined) continue
    const share = name === 'V_CER' ? 'half' : 'a third'
    return [
      {
        value: v * openBaseShare[name],
        how: `V_CEO is not published: ${share} of the published ${name} is taken (common practice)`,
        published: false,
      },
    ]
  }
  return []
}

/**
 * Highest collector-emitter voltage a bipolar transistor may see with open base, V: the lowest of V_CEO, breakdown
 * voltage with open base and V_PT; where none of the first two is published, a cautious share of V_CER, V_CES or V_CBO.
 *
 * @returns undefined where no voltage is published at all
 * @example collectorLimitV(oc71)?.value // 10, a third of V_CBO
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

/**
 * What is published about the heat of a type, as the heat model of `#core/physics` takes it. A published derating
 * counts as the thermal resistance it stands for; a junction temperature that is not published is taken from the
 * material (common practice).
 */
export function heatRatings(t: PartType): HeatRatings {
  const { T_Jmax, R_thJA, R_thJC, power } = t.ratings
  const by = (of: 'ambient' | 'case', stated: number | undefined): number | undefined => {
    const derated = power.flatMap((p) => (p.of === of && p.deratingWPerK !== undefined ? [1 / p.deratingWPerK] : []))
    const all = stated === undefined ? derated : [stated, ...derated]
    return all.length === 0 ? undefined : Math.max(...all)
  }
  const ja = by('ambient', R_thJA)
  const jc = by('case', R_thJC)
  return {
    T_Jmax: T_Jmax ?? usualJunctionC[t.material ?? 'Ge'],
    ...(ja === undefined ? {} : { R_thJA: ja }),
    ...(jc === undefined ? {} : { R_thJC: jc }),
    power,
  }
}
