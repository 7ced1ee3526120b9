import { type NumberScheme, thyristors } from './number-scheme.ts'
import type { Family, Material } from './part-type.ts'

interface House {
  readonly pattern: RegExp
  readonly says: readonly string[]
  readonly material?: Material
  readonly families?: readonly Family[]
  /** Left out: the prefix belongs to this house alone. */
  readonly sure?: false
}

const bjt: readonly Family[] = ['bjt']

/** Makers' own prefixes. From memory. */
const houses: readonly House[] = [
  {
    pattern: /^TIP\d/,
    says: ['TIP stands for a plastic power transistor of Texas Instruments.'],
    material: 'Si',
    families: bjt,
  },
  {
    pattern: /^TIC\d/,
    says: ['TIC stands for a thyristor or triac of Texas Instruments.'],
    material: 'Si',
    families: thyristors,
  },
  {
    pattern: /^TIS\d/,
    says: ['TIS stands for a small plastic transistor or field-effect transistor of Texas Instruments.'],
    material: 'Si',
  },
  {
    pattern: /^MJE\d/,
    says: ['MJE stands for a plastic power transistor of Motorola.'],
    material: 'Si',
    families: bjt,
  },
  { pattern: /^MJ\d/, says: ['MJ stands for a metal power transistor of Motorola.'], material: 'Si', families: bjt },
  {
    pattern: /^MPSA?\d/,
    says: ['MPS stands for a small plastic transistor of Motorola.'],
    material: 'Si',
    families: bjt,
  },
  {
    pattern: /^MPF\d/,
    says: ['MPF stands for a plastic field-effect transistor of Motorola.'],
    material: 'Si',
    families: ['jfet', 'mosfet'],
  },
  { pattern: /^MCR\d/, says: ['MCR stands for a thyristor of Motorola.'], material: 'Si', families: ['scr'] },
  { pattern: /^MAC\d/, says: ['MAC stands for a triac of Motorola.'], material: 'Si', families: ['triac'] },
  {
    pattern: /^PN\d/,
    says: ['PN stands for the plastic version of the metal type with the same number after 2N.'],
    material: 'Si',
  },
  {
    pattern: /^ZTX\d/,
    says: ['ZTX stands for a small plastic transistor of Ferranti.'],
    material: 'Si',
    families: bjt,
  },
  {
    pattern: /^Z01\d/,
    says: ['Z01 stands for a small triac of Thomson (later ST).'],
    material: 'Si',
    families: ['triac'],
  },
  {
    pattern: /^C1\d\d[A-Z]/,
    says: ['C and a number below 200 may be a thyristor of General Electric; the letter is its voltage.'],
    material: 'Si',
    families: ['scr'],
    sure: false,
  },
  {
    pattern: /^CV\d/,
    says: ['CV is a number of the British services for a part that also has a number of its maker.'],
  },
  { pattern: /^NKT\d/, says: ['NKT is a house number of Newmarket; most are germanium.'] },
  { pattern: /^GET\d/, says: ['GET is a house number of GEC; most are germanium.'] },
  {
    pattern: /^X[AB]\d/,
    says: ['XA and XB are house numbers of Ediswan; they are germanium.'],
    material: 'Ge',
    families: bjt,
  },
  {
    pattern: /^SFT\d/,
    says: ['SFT is a house number of Thomson and its licensees; most are germanium.'],
    families: bjt,
  },
  {
    pattern: /^G[CDFS]\d{3}/,
    says: ['GC, GD, GF and GS are germanium transistors of the GDR and of Tesla.'],
    material: 'Ge',
    families: bjt,
  },
  {
    pattern: /^S[CDFS]\d{3}/,
    says: ['SC, SD, SF and SS are silicon transistors of the GDR.'],
    material: 'Si',
    families: bjt,
  },
  {
    pattern: /^K[CDFSU]\d{3}/,
    says: ['KC, KD, KF, KS and KU may be silicon transistors of Tesla.'],
    material: 'Si',
    families: bjt,
    sure: false,
  },
]

/** Numbers that only one maker, country or service used. */
export const house: NumberScheme = {
  id: 'house',
  name: 'house number',
  source: 'common practice of the makers; from memory',
  read: (plain) => {
    const found = houses.find((h) => h.pattern.test(plain))
    if (found === undefined) return undefined
    const { material, families, says, sure } = found
    return {
      sure: sure ?? true,
      ...(material === undefined ? {} : { material }),
      ...(families === undefined ? {} : { families }),
      says,
      doesNotSay: [
        ...(material === undefined ? ['It does not tell the material for sure.'] : []),
        ...(families === undefined || families.includes('bjt') ? ['It does not tell NPN from PNP.'] : []),
      ],
    }
  },
}
