/** Units used inside Germane: SI without prefixes. Prefixes live only where a person types or reads. */
export const units = [
  '1',
  'A',
  'V',
  'ohm',
  'S',
  'W',
  'K',
  'degC',
  'K/W',
  'V/K',
  '1/K',
  's',
  'Hz',
  'F',
  'div',
  'm',
  'rad',
  'kg',
] as const

export type Unit = (typeof units)[number]

/** Whether a text names one of our units; the run-time check for units read from files. */
export const isUnit = (text: string): text is Unit => (units as readonly string[]).includes(text)
