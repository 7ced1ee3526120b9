import type { Family, Material, Polarity } from './part-type.ts'

export type SchemeId = 'jedec' | 'pro-electron' | 'old-european' | 'jis' | 'soviet' | 'house'

/** What a type number tells under one scheme, and what it does not. */
export interface TypeNumberReading {
  readonly scheme: SchemeId
  /** Name of the scheme, for people. */
  readonly name: string
  /** Standard of the scheme, or its standing. */
  readonly source: string
  /** False where the number may just as well belong to another scheme. */
  readonly sure: boolean
  readonly material?: Material
  readonly polarity?: Polarity
  /** Families the part may belong to; left out where the scheme does not say. */
  readonly families?: readonly Family[]
  /** One plain sentence for each thing the number tells. */
  readonly says: readonly string[]
  /** One plain sentence for each thing a person might expect it to tell. */
  readonly doesNotSay: readonly string[]
}

/** A scheme of type numbers: reads a plain number (see `plainTypeName`), or gives undefined where it does not fit. */
export interface NumberScheme {
  readonly id: SchemeId
  readonly name: string
  readonly source: string
  readonly read: (plain: string) => Omit<TypeNumberReading, 'scheme' | 'name' | 'source'> | undefined
}

/** Families that have three electrodes and may be transistors of any kind. */
export const transistors: readonly Family[] = ['bjt', 'jfet', 'mosfet']
export const thyristors: readonly Family[] = ['scr', 'triac']
export const diodes: readonly Family[] = ['diode', 'zener']
