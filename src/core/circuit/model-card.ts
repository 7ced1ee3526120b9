import type { Fault, Place } from '#core/fault'
import { nearNames } from '#core/text'
import { type Device, kindNames } from './circuit.ts'
import { cardShapes } from './circuit-schema.ts'
import { spiceNumber } from './spice-number.ts'

type Kind = Device['kind']

/** What a card's type word stands for. */
const types: Readonly<Record<string, { readonly kind: Kind; readonly polarity: string }>> = {
  d: { kind: 'diode', polarity: '' },
  npn: { kind: 'bipolar', polarity: 'npn' },
  pnp: { kind: 'bipolar', polarity: 'pnp' },
  njf: { kind: 'jfet', polarity: 'n' },
  pjf: { kind: 'jfet', polarity: 'p' },
  nmos: { kind: 'mosfet', polarity: 'n' },
  pmos: { kind: 'mosfet', polarity: 'p' },
}

/** Parameters that say nothing about direct current: capacitances, transit times, noise. They are read over. */
const withoutDirectCurrent: Readonly<Record<Kind, readonly string[]>> = {
  diode: ['cjo', 'cj0', 'tt', 'fc', 'kf', 'af'],
  bipolar: 'cje vje mje tf xtf vtf itf ptf cjc vjc mjc xcjc tr cjs vjs mjs fc kf af'.split(' '),
  jfet: ['cgs', 'cgd', 'pb', 'fc', 'kf', 'af'],
  mosfet: 'cbd cbs cgso cgdo cgbo cj mj cjsw mjsw pb fc kf af tox'.split(' '),
}

/** Other spellings that SPICE knows. */
const otherNames: Readonly<Record<string, string>> = { jo: 'is', va: 'vaf', vb: 'var', ik: 'ikf', vt0: 'vto' }

export interface NamedDevice {
  readonly name: string
  readonly device: Device
}

/**
 * Reads a `.model` card that stands on one logical line.
 *
 * @param line the card, continuation lines joined
 * @param place where it stands, for faults
 * @returns the device under its name in small letters, or every fault of the card
 */
export function readModelCard(line: string, place: Place = {}): NamedDevice | readonly Fault[] {
  const head = /^\.model\s+(\S+)\s+([a-z]+)\s*\(?([^()]*)\)?\s*$/i.exec(line.trim())
  const bad = (value: string, problem: string, mend: string): Fault => ({
    code: 'bad-input',
    place,
    value,
    problem,
    mend,
  })
  if (head === null)
    return [bad(line.trim().slice(0, 60), 'is not a model card', 'Write it as .model NAME NPN(IS=1e-14 BF=200).')]
  const type = types[head[2]!.toLowerCase()]
  if (type === undefined)
    return [bad(head[2]!, 'is not a model type that is known here', 'Types known: D, NPN, PNP, NJF, PJF, NMOS, PMOS.')]
  const faults: Fault[] = []
  const card = readParameters(head[3]!, type.kind, faults, bad)
  faults.push(...doubleMeanings(head[3]!, card, bad))
  if (faults.length > 0) return faults
  const rest = type.kind === 'diode' ? {} : { polarity: type.polarity }
  return { name: head[1]!.toLowerCase(), device: { kind: type.kind, ...rest, card } as Device }
}

function readParameters(
  text: string,
  kind: Kind,
  faults: Fault[],
  bad: (value: string, problem: string, mend: string) => Fault,
): Readonly<Record<string, number>> {
  const card: Record<string, number> = {}
  const known = Object.keys(cardShapes[kind])
  for (const piece of text
    .replaceAll(',', ' ')
    .replaceAll(/\s*=\s*/g, '=')
    .split(/\s+/)) {
    if (piece === '') continue
    const [written = '', number] = piece.split('=') as [string, string?]
    const plain = written.toLowerCase()
    const name = known.includes(plain) ? plain : (otherNames[plain] ?? plain)
    const value = number === undefined ? undefined : spiceNumber(number)
    if (withoutDirectCurrent[kind].includes(name)) continue
    if (value === undefined) faults.push(bad(piece, 'is not a parameter with a number', 'Write it as BF=200.'))
    else if (name === 'level') {
      if (value !== 1) faults.push(bad(piece, 'is a model that is not known here', 'Only level 1 is computed.'))
    } else if (!known.includes(name))
      faults.push(bad(written, `is not a parameter of a ${kindNames[kind]}`, mendFor(plain, known)))
    else if (name in card) faults.push(bad(written, 'stands twice', 'Take one out.'))
    else if (!inDomain(kind, name, value))
      faults.push(bad(piece, 'is not a value it can have', 'Check its sign and its suffix.'))
    else card[name] = value
  }
  return card
}

/** Parameters that SPICE takes for something else than they say, with the others of the card. */
function doubleMeanings(
  text: string,
  card: Readonly<Record<string, number>>,
  bad: (value: string, problem: string, mend: string) => Fault,
): readonly Fault[] {
  const faults = ['ise', 'isc'].flatMap((name) => {
    const value = card[name] ?? 0
    const problem = 'is taken by SPICE as a multiple of IS, being above 1e-4'
    return value > 1e-4 ? [bad(`${name.toUpperCase()}=${value}`, problem, 'Write the current in A.')] : []
  })
  if (/\btox\s*=/i.test(text) && card.kp === undefined)
    faults.push(bad('TOX', 'gives KP by way of the oxide, which is not computed here', 'Write KP as well.'))
  return faults
}

function inDomain(kind: Kind, name: string, value: number): boolean {
  const shape = cardShapes[kind] as Readonly<Record<string, { safeParse(v: unknown): { success: boolean } }>>
  return shape[name]!.safeParse(value).success
}

function mendFor(name: string, known: readonly string[]): string {
  const near = nearNames(name, known)
  return near.length > 0
    ? `Did you mean ${near.map((n) => n.toUpperCase()).join(' or ')}?`
    : `Parameters known: ${known.map((k) => k.toUpperCase()).join(' ')}.`
}

/** Type word of a device in a card. */
function typeWord(device: Device): string {
  switch (device.kind) {
    case 'diode':
      return 'D'
    case 'bipolar':
      return device.polarity.toUpperCase()
    case 'jfet':
      return device.polarity === 'n' ? 'NJF' : 'PJF'
    case 'mosfet':
      return device.polarity === 'n' ? 'NMOS' : 'PMOS'
  }
}

/** Longest line of a written card. */
const lineWidth = 76

/**
 * Writes a device as a `.model` card that SPICE programs read: comments first, then the card in lines of at most 76
 * letters. Numbers keep all their figures. Leakage outside the junctions is no part of a card.
 *
 * @param comments lines for people: temperature, range of validity, date
 * @example writeModelCard('q1', { kind: 'bipolar', polarity: 'npn', card: { is: 1e-14, bf: 200 } })
 */
export function writeModelCard(name: string, device: Device, comments: readonly string[] = []): string {
  const words = Object.entries(device.card).map(([k, v]) => `${k.toUpperCase()}=${v}`)
  if (device.kind === 'mosfet') words.unshift('LEVEL=1')
  const lines = [`.model ${name} ${typeWord(device)}(`]
  words.forEach((word, k) => {
    const at = lines.length - 1
    const piece = k === 0 ? word : ` ${word}`
    if (lines[at]!.length + piece.length + 1 > lineWidth) lines.push(`+ ${word}`)
    else lines[at] += piece
  })
  lines[lines.length - 1] += ')'
  return [...comments.flatMap((c) => c.split('\n')).map((c) => `* ${c}`), ...lines, ''].join('\n')
}
