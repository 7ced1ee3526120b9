import { diodes, type NumberScheme, thyristors, transistors } from './number-scheme.ts'
import type { Family, Material } from './part-type.ts'

const materials: Readonly<Record<string, readonly [material: Material, name: string]>> = {
  A: ['Ge', 'germanium'],
  B: ['Si', 'silicon'],
  C: ['GaAs', 'gallium arsenide or the like'],
}

interface Use {
  readonly what: string
  readonly families?: readonly Family[]
}

const uses: Readonly<Record<string, Use>> = {
  A: { what: 'a signal, switching or mixer diode', families: ['diode'] },
  B: { what: 'a variable-capacitance diode', families: ['diode'] },
  C: { what: 'a low-power transistor for audio frequencies', families: transistors },
  D: { what: 'a power transistor for audio frequencies', families: transistors },
  E: { what: 'a tunnel diode' },
  F: { what: 'a low-power transistor for high frequencies', families: transistors },
  G: { what: 'an oscillator diode, or several unlike parts in one case' },
  H: { what: 'a diode sensitive to magnetic fields' },
  L: { what: 'a power transistor for high frequencies', families: transistors },
  N: { what: 'an optocoupler' },
  P: { what: 'a part sensitive to radiation, such as a photodiode or phototransistor' },
  Q: { what: 'a part that radiates, such as a light-emitting diode' },
  R: {
    what: 'a low-power control or switching part with a breakdown characteristic, such as a small thyristor',
    families: [...thyristors, 'ujt'],
  },
  S: { what: 'a low-power transistor for switching', families: transistors },
  T: {
    what: 'a power control or switching part with a breakdown characteristic: a thyristor or triac',
    families: thyristors,
  },
  U: { what: 'a power transistor for switching', families: transistors },
  X: { what: 'a multiplier diode, such as a varactor' },
  Y: { what: 'a rectifier or booster diode', families: ['diode'] },
  Z: { what: 'a voltage reference or regulator diode, or a suppressor', families: diodes },
}

const pattern = /^([ABC])([A-Z])(?:(\d{3})|([A-Z]\d{2}))(.*)$/

/** European numbers: first letter the material, second letter what it is for. */
export const proElectron: NumberScheme = {
  id: 'pro-electron',
  name: 'Pro Electron (European)',
  source: 'Pro Electron type designation code; gain and tolerance suffixes partly from memory',
  read: (plain) => {
    const m = pattern.exec(plain)
    const material = materials[m?.[1] ?? '']
    const use = uses[m?.[2] ?? '']
    if (m === null || material === undefined || use === undefined) return undefined
    return {
      // CA, CD and the like also begin numbers of integrated circuits.
      sure: m[1] !== 'C',
      material: material[0],
      ...(use.families === undefined ? {} : { families: use.families }),
      says: [
        `The first letter stands for ${material[1]}.`,
        `The second letter stands for ${use.what}.`,
        m[3] === undefined
          ? 'A third letter marks a professional or industrial type.'
          : 'Three figures mark a type for home equipment.',
        ...suffixSays(m[2]!, m[5]!),
      ],
      doesNotSay: [
        ...(use.families?.includes('bjt') ? ['It does not tell NPN from PNP.'] : []),
        ...(use.families?.includes('bjt') ? ['It does not tell a bipolar transistor from a field-effect one.'] : []),
        'The figures are a serial number and tell nothing.',
      ],
    }
  },
}

const toleranceOf: Readonly<Record<string, string>> = { A: '1 %', B: '2 %', C: '5 %', D: '10 %', E: '15 %' }

function suffixSays(use: string, suffix: string): readonly string[] {
  if (suffix === '') return []
  const zener = /^([A-E])(\d+)(?:V(\d+))?/.exec(suffix)
  if (use === 'Z' && zener !== null)
    return [
      `${suffix} stands for ${zener[2]}${zener[3] === undefined ? '' : `.${zener[3]}`} V, tolerance ${toleranceOf[zener[1]!]}.`,
    ]
  if (/[CDFLSU]/.test(use)) {
    if (/^[ABC]$/.test(suffix)) return [`The suffix ${suffix} is most often a gain rank: A low, B medium, C high.`]
    if (/^\d{1,2}$/.test(suffix))
      return [`The suffix ${suffix} is a gain rank; the figure is about the middle of its range, in tens.`]
    if (suffix.endsWith('L')) return ['The suffix L often marks another lead order.']
  }
  if (use === 'T' && /^\d{3,4}/.test(suffix)) return [`The suffix stands for ${/^\d+/.exec(suffix)![0]} V.`]
  if (suffix === 'R') return ['The suffix R marks reversed polarity.']
  return [`The suffix ${suffix} is a variant; what it means depends on the type.`]
}
