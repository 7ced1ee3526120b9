import type { Material, PartType } from '#core/device'
import type { Tester } from '#core/tester'
import { type Ceiling, ceilingOf } from './ceiling.ts'
import { say } from './say.ts'
import type { Wishes } from './sheet.ts'

/** All that the planning of one sheet looks at. */
export interface Bench {
  readonly tester: Tester
  readonly partType?: PartType
  readonly wishes: Wishes
  readonly ceiling: Ceiling
  readonly kind: 'transistor' | 'diode' | 'other'
  /** Left out where neither record nor wish says it. An unknown part's ceiling is that of germanium, the weaker, always. */
  readonly material?: Material
  readonly polarity?: 'NPN' | 'PNP'
  /** Whether it is a part for a heat sink: typical leakages are larger. */
  readonly isPower: boolean
  /** The part in a sentence: `this 2N404`, `the unknown part`. */
  readonly name: string
}

const kindOf = (t: PartType | undefined, wishes: Wishes): Bench['kind'] => {
  if (t === undefined) return wishes.family === 'diode' ? 'diode' : 'transistor'
  if (t.family === 'bjt') return 'transistor'
  return t.family === 'diode' || t.family === 'zener' ? 'diode' : 'other'
}

/** Power parts: rated above this with a heat sink or without, W (common practice). */
const powerPartW = 4

/** Sets up the planning of one sheet. */
export function benchOf(tester: Tester, t: PartType | undefined, wishes: Wishes): Bench {
  const kind = kindOf(t, wishes)
  const material = t === undefined ? wishes.material : t.material
  const polarity = t === undefined ? wishes.polarity : t.polarity
  return {
    tester,
    ...(t === undefined ? {} : { partType: t }),
    wishes,
    ceiling: ceilingOf(t, wishes, kind === 'diode'),
    kind,
    ...(material === undefined ? {} : { material }),
    ...(polarity === 'NPN' || polarity === 'PNP' ? { polarity } : {}),
    isPower: t?.ratings.power.some((p) => p.powerW >= powerPartW) ?? false,
    name: t === undefined ? 'the unknown part' : `this ${t.type}`,
  }
}

/** Why a voltage is safe, in a sentence. */
export const within = (b: Bench, ceilingV: number): string =>
  b.partType === undefined
    ? `Within ${say(ceilingV, 'V')}, which any part bears.`
    : `Within ${say(ceilingV, 'V')}, which is what the ratings of ${b.name} allow with a margin.`
