import { type NumberScheme, transistors } from './number-scheme.ts'
import type { Family, Material } from './part-type.ts'

const materials: Readonly<Record<string, readonly [material: Material, name: string]>> = {
  G: ['Ge', 'germanium'],
  '1': ['Ge', 'germanium'],
  K: ['Si', 'silicon'],
  '2': ['Si', 'silicon'],
  A: ['GaAs', 'gallium arsenide'],
  '3': ['GaAs', 'gallium arsenide'],
}

const kinds: Readonly<Record<string, readonly [what: string, families: readonly Family[]]>> = {
  T: ['a bipolar transistor', ['bjt']],
  P: ['a field-effect transistor', ['jfet', 'mosfet']],
  D: ['a diode', ['diode']],
  S: ['a Zener diode', ['zener']],
}

/** First figure of a transistor of the later scheme. */
const powers: Readonly<Record<string, string>> = {
  '1': 'low power, low frequency',
  '2': 'low power, medium frequency',
  '3': 'low power, high frequency',
  '4': 'medium power, low frequency',
  '5': 'medium power, medium frequency',
  '6': 'medium power, high frequency',
  '7': 'high power, low frequency',
  '8': 'high power, medium frequency',
  '9': 'high power, high frequency',
}

/** Hundreds of the numbers before 1964: P1 to P100 germanium of low power, and so on. */
const early: readonly (readonly [last: number, material: Material, what: string])[] = [
  [100, 'Ge', 'low power, low frequency, germanium'],
  [200, 'Si', 'low power, low frequency, silicon'],
  [300, 'Ge', 'high power, low frequency, germanium'],
  [400, 'Si', 'high power, low frequency, silicon'],
  [500, 'Ge', 'low power, high frequency, germanium'],
  [600, 'Si', 'low power, high frequency, silicon'],
  [700, 'Ge', 'high power, high frequency, germanium'],
  [800, 'Si', 'high power, high frequency, silicon'],
]

const polarity = 'It does not tell NPN from PNP.'

/** Soviet numbers, before and after 1964. */
export const soviet: NumberScheme = {
  id: 'soviet',
  name: 'GOST (Soviet)',
  source: 'GOST 10862 for the later numbers; the earlier ones from memory',
  read: (plain) => before(plain) ?? after(plain),
}

function before(plain: string): ReturnType<NumberScheme['read']> {
  const m = /^(M?P)(\d{1,3})([A-Z]?)$/.exec(plain)
  const span = m === null ? undefined : early.find(([last]) => Number(m[2]) <= last)
  if (m === null || span === undefined) return undefined
  return {
    sure: m[1] === 'MP',
    material: span[1],
    families: ['bjt'],
    says: [
      m[1] === 'MP' ? 'MP stands for a transistor in a cold-welded case.' : 'P stands for a transistor.',
      `The number stands for ${span[2]}.`,
      ...(m[3] === '' ? [] : [`The letter ${m[3]} is a rank of gain, voltage or noise, by type.`]),
    ],
    doesNotSay: [polarity],
  }
}

function after(plain: string): ReturnType<NumberScheme['read']> {
  const m = /^([GK123](?=[TPDS])|[A3](?=P))([TPDS])(\d{3,4})([A-Z]?)$/.exec(plain)
  if (m === null) return undefined
  const [material, name] = materials[m[1]!]!
  const [what, families] = kinds[m[2]!]!
  const power = m[2] === 'T' || m[2] === 'P' ? powers[m[3]!.charAt(0)] : undefined
  return {
    sure: /^[GK123]T/.test(plain),
    material,
    families: m[2] === 'P' ? transistors : families,
    says: [
      `The first sign stands for ${name}.`,
      `The second letter stands for ${what}.`,
      ...(power === undefined ? [] : [`The first figure stands for ${power}.`]),
      ...(m[4] === '' ? [] : [`The letter ${m[4]} is a rank of gain or voltage, by type.`]),
    ],
    doesNotSay: m[2] === 'T' ? [polarity] : ['The other figures are a serial number and tell nothing.'],
  }
}
