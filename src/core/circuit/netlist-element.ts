import { type Component, deviceKinds, valueLimits } from './circuit.ts'
import { spiceNumber } from './spice-number.ts'

/** What is wrong with a line: what stands there, the clause and the mend. */
export interface Objection {
  readonly value: string
  readonly problem: string
  readonly mend: string
}

/** A component, and the width and length that its card gives it. */
export interface MadeElement {
  readonly component: Component
  readonly sizes: Readonly<Record<string, number>>
}

const forms: Readonly<Record<string, string>> = {
  R: 'R1 a b 4.7k',
  V: 'V1 plus minus 9',
  I: 'I1 from to 1m',
  D: 'D1 anode cathode MODEL',
  Q: 'Q1 collector base emitter MODEL',
  J: 'J1 drain gate source MODEL',
  M: 'M1 drain gate source body MODEL W=100u L=100u',
}

/** Elements that SPICE knows and that have no place here. */
const elsewhere: Readonly<Record<string, readonly [problem: string, mend: string]>> = {
  C: ['is a capacitor, which takes no direct current', 'Leave it out.'],
  L: ['is a coil, which is not known here', 'Write the resistance of its wire as an R.'],
  K: ['couples coils, which are not known here', 'Leave it out.'],
  X: ['calls a subcircuit, which is not known here', 'Write its elements out.'],
  S: ['is a switch, which is not known here', 'Write an R for it, open or closed.'],
  W: ['is a switch, which is not known here', 'Write an R for it, open or closed.'],
}
for (const letter of 'BEFGH')
  Object.assign(elsewhere, {
    [letter]: ['is a controlled source, which is not known here', 'Write a V or an I for it.'],
  })

/**
 * Reads one element card.
 *
 * @param words its words
 * @returns the component, its names of nodes and model in small letters, or what is wrong with the card
 */
export function readElement(words: readonly string[]): MadeElement | Objection {
  const [ref = '', ...rest] = words
  const letter = ref.charAt(0).toUpperCase()
  const form = forms[letter]
  if (form === undefined) {
    const [problem, mend] = elsewhere[letter] ?? [
      'is not an element that is known here',
      `Known: ${[...'RVIDQJM'].join(', ')}.`,
    ]
    return { value: ref, problem, mend }
  }
  const object = (value: string, problem: string): Objection => ({ value, problem, mend: `Write it as ${form}.` })
  return letter in deviceKinds ? deviceElement(ref, letter, rest, object) : valueElement(ref, letter, rest, object)
}

type Objector = (value: string, problem: string) => Objection

function valueElement(ref: string, letter: string, rest: readonly string[], object: Objector): MadeElement | Objection {
  const words = letter !== 'R' && rest[2]?.toLowerCase() === 'dc' ? [...rest.slice(0, 2), ...rest.slice(3)] : rest
  const [one, two, written, more] = words
  if (one === undefined || two === undefined || written === undefined)
    return object([ref, ...rest].join(' '), 'has no two nodes and a value')
  const value = spiceNumber(written)
  if (value === undefined) return object(written, `is not the value of ${ref}`)
  const { leastOhm, mostOhm, mostVolts, mostAmperes } = valueLimits
  if (letter === 'R' && !(value >= leastOhm && value <= mostOhm))
    return object(written, `is not a resistance from ${leastOhm} to ${mostOhm.toExponential()} ohm for ${ref}`)
  if (letter !== 'R' && Math.abs(value) > (letter === 'V' ? mostVolts : mostAmperes))
    return object(written, `is more than ${ref} can be`)
  if (more !== undefined) return object(more, `stands after the value of ${ref} and is not known here`)
  const nodes = [one.toLowerCase(), two.toLowerCase()] as const
  return { component: { kind: letter as 'R' | 'V' | 'I', ref, nodes, value }, sizes: {} }
}

function deviceElement(
  ref: string,
  letter: string,
  rest: readonly string[],
  object: Objector,
): MadeElement | Objection {
  const count = letter === 'D' ? 2 : letter === 'M' ? 4 : 3
  const head = rest.slice(0, count + 1)
  if (head.length < count + 1 || head.some((w) => w.includes('=')))
    return object([ref, ...rest].join(' '), `has no ${count} nodes and a model`)
  const sizes: Record<string, number> = {}
  for (const word of rest.slice(count + 1)) {
    const [name = '', number] = word.toLowerCase().split('=') as [string, string?]
    const value = spiceNumber(number ?? '')
    if (letter !== 'M' || !['w', 'l'].includes(name))
      return object(word, `stands after the model of ${ref} and is not known here`)
    if (value === undefined || !(value > 0)) return object(word, `is not a size of ${ref} above 0 m`)
    if (name in sizes) return object(word, `is given twice for ${ref}`)
    sizes[name] = value
  }
  const nodes = head.slice(0, count).map((n) => n.toLowerCase())
  return { component: { kind: letter as 'D', ref, nodes, device: head[count]!.toLowerCase() }, sizes }
}
