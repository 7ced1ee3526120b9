import { explainTypeNumber, findType, type PartType, plainTypeName, type TypeNumberReading } from '#core/device'
import type { IdentifiedAs } from './identify.ts'
import type { Weight } from './type-weights.ts'

/** What stands on a part: what the schemes of type numbers make of it, and where that does not go with the readings. */
export interface Marking {
  readonly text: string
  /** What the marking tells, and what it does not, in sentences. */
  readonly says: readonly string[]
  /** Where it speaks against what was read. */
  readonly against?: string
}

/** How much a marking speaks for a type: the number itself, a number that holds it, any other. From memory. */
const weights = { same: 1000, holds: 8, other: 1 } as const
/** Figures that a part of a number must have to count: `71` of OC71. */
const leastHeld = 2

const technologies: Readonly<Record<string, string>> = { Si: 'silicon', Ge: 'germanium', GaAs: 'III-V' }

/** How much a marking speaks for a type. */
export function byMarking(t: PartType, text: string, types: readonly PartType[]): Weight | undefined {
  const [plain, name] = [plainTypeName(text), plainTypeName(t.type)]
  if (plain.length < leastHeld) return undefined
  if (plain === name || findType(types, text).found?.partType.type === t.type)
    return { weight: weights.same, because: `it is marked ${text}` }
  return name.includes(plain) ? { weight: weights.holds, because: `its number holds "${text}"` } : undefined
}

/** What a scheme or a record says that the readings speak against. */
function disagreement(
  a: IdentifiedAs,
  said: Pick<TypeNumberReading, 'material' | 'polarity'>,
  what: string,
): string | undefined {
  const material = technologies[said.material ?? '']
  const isOtherMaterial = material !== undefined && a.technology !== undefined && a.technology !== material
  const isOtherPolarity = said.polarity !== undefined && a.polarity !== undefined && said.polarity !== a.polarity
  if (!isOtherMaterial && !isOtherPolarity) return undefined
  const claimed = [isOtherMaterial ? material : '', isOtherPolarity ? said.polarity : ''].filter((w) => w !== '')
  return `${what} would be ${claimed.join(' ')}; the readings say ${a.text}. It may be marked anew, or by another house.`
}

/**
 * Explains a marking by the type of that number and by the schemes of type numbers, beside what was read.
 *
 * @example explainMarking('AC128', best, types).says // ['A stands for germanium. ...', ...]
 */
export function explainMarking(text: string, a: IdentifiedAs, types: readonly PartType[]): Marking {
  const readings = explainTypeNumber(text)
  const known = findType(types, text).found
  const sure = readings.filter((r) => r.sure)
  const record = known === undefined ? undefined : disagreement(a, known.partType, known.partType.type)
  const scheme = sure.map((r) => disagreement(a, r, `${text} by the scheme "${r.name}"`)).find((d) => d !== undefined)
  const against = record ?? scheme
  const bySchemes = readings.map((r) => `${r.name}: ${[...r.says, ...r.doesNotSay].join(' ')}`)
  const says = [...(known?.note === undefined ? [] : [known.note]), ...bySchemes]
  return {
    text,
    says: says.length === 0 ? [`"${text}" fits no scheme of type numbers that is known here.`] : says,
    ...(against === undefined ? {} : { against }),
  }
}
