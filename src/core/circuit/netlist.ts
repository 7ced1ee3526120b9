import { type Fault, FaultError } from '#core/fault'
import { nearNames, type ReadOptions } from '#core/text'
import { type Circuit, type Component, type Device, deviceKinds } from './circuit.ts'
import { readModelCard } from './model-card.ts'
import { wiringFaults } from './read-circuit.ts'
import { spiceNumber } from './spice-number.ts'

/** A logical line: continuation lines joined, comments taken off. */
interface Line {
  readonly text: string
  readonly number: number
}

/** What is gathered while reading. */
interface Reading {
  readonly file: string | undefined
  readonly components: { component: Component; line: number; sizes: Readonly<Record<string, number>> }[]
  readonly devices: Record<string, Device>
  readonly faults: Fault[]
  options: Record<string, number>
}

/**
 * Reads a netlist: a title line, then element cards R V I D Q J M, `.model`, `.temp`, `.options temp tnom gmin`, `.op`
 * and `.end`. Comments begin with `*`, or after `;` or ` $`; a line that begins with `+` goes on with the one before.
 * Names and nodes are the same in capital and small letters.
 *
 * @throws {FaultError} everything that is not known here, by line, all together
 */
export function readNetlist(text: string, options: ReadOptions = {}): Circuit {
  const [titleLine = '', ...rest] = text.replace(/^\ufeff/, '').split(/\r\n|\r|\n/)
  const r: Reading = { file: options.file, components: [], devices: {}, faults: [], options: {} }
  if (looksLikeCard(titleLine))
    fault(r, 1, titleLine.trim(), 'stands where the title goes', 'Put a line with a title above it, as SPICE asks.')
  for (const line of logicalLines(rest)) {
    if (/^\.end\s*$/i.test(line.text)) break
    if (line.text.startsWith('.')) readCommand(line, r)
    else readElement(line, r)
  }
  const components = r.components.map((c) => finished(c, r))
  r.faults.push(...wiringFaults(components))
  if (components.length === 0 && r.faults.length === 0)
    fault(r, 1, titleLine.trim(), 'is followed by no element', 'Add lines such as R1 a b 4.7k.')
  if (r.faults.length > 0) throw new FaultError(byLine(r.faults))
  const { temp, gmin } = r.options
  const title = titleLine.replace(/^\*\s*/, '').trim() || 'netlist'
  return {
    title,
    components,
    devices: withNominal(r),
    ...(temp === undefined ? {} : { temperatureC: temp }),
    ...(gmin === undefined ? {} : { gminS: gmin }),
  }
}

/** Faults in the order of the lines. */
const byLine = (faults: readonly Fault[]): readonly Fault[] => {
  const line = (f: Fault): number => (f.code === 'bad-input' ? (f.place.line ?? 0) : 0)
  return [...faults].sort((a, b) => line(a) - line(b))
}

/** A first line that is plainly a card: SPICE would drop it without a word. */
const looksLikeCard = (line: string): boolean =>
  /^\s*\.(model|temp|options?)\b/i.test(line) ||
  (/^\s*[rvi]\S*\s+\S+\s+\S+\s+(dc\s+)?\S+\s*$/i.test(line) &&
    spiceNumber(line.trim().split(/\s+/).at(-1)!) !== undefined)

function logicalLines(lines: readonly string[]): readonly Line[] {
  const all: { text: string; number: number }[] = []
  lines.forEach((raw, k) => {
    const text = raw.replace(/(;|\s\$\s|\s\$$).*$/, '').trim()
    if (text === '' || text.startsWith('*')) return
    const before = all.at(-1)
    if (text.startsWith('+') && before !== undefined) before.text += ` ${text.slice(1).trim()}`
    else all.push({ text, number: k + 2 })
  })
  return all
}

function fault(r: Reading, line: number, value: string, problem: string, mend: string): void {
  const place = r.file === undefined ? { line } : { file: r.file, line }
  r.faults.push({ code: 'bad-input', place, value: value.slice(0, 80), problem, mend })
}

function readCommand(line: Line, r: Reading): void {
  const [word = '', ...rest] = line.text.split(/\s+/)
  switch (word.toLowerCase()) {
    case '.op':
      return
    case '.model':
      readModel(line, r)
      return
    case '.temp': {
      const t = spiceNumber(rest[0] ?? '')
      if (t === undefined || rest.length !== 1)
        fault(r, line.number, line.text, 'is not one temperature', 'Write it as .temp 25.')
      else setOption(r, line, 'temp', t)
      return
    }
    case '.option':
    case '.options':
      readOptions(line, r)
      return
    default:
      fault(r, line.number, word, 'is not a command that is known here', 'Known: .model, .temp, .options, .op, .end.')
  }
}

function readModel(line: Line, r: Reading): void {
  const place = r.file === undefined ? { line: line.number } : { file: r.file, line: line.number }
  const read = readModelCard(line.text, place)
  if (!('device' in read)) r.faults.push(...read)
  else if (Object.hasOwn(r.devices, read.name)) fault(r, line.number, read.name, 'stands for two models', 'Rename one.')
  else r.devices[read.name] = read.device
}

const knownOptions = ['temp', 'tnom', 'gmin']

function setOption(r: Reading, line: Line, name: string, value: number): void {
  const low = name === 'gmin' ? 0 : -273
  if (value < low || value > 1000) fault(r, line.number, `${name}=${value}`, 'is not a value it can have', 'Check it.')
  else r.options[name] = value
}

function readOptions(line: Line, r: Reading): void {
  const pieces = line.text
    .replaceAll(/\s*=\s*/g, '=')
    .split(/\s+/)
    .slice(1)
  for (const piece of pieces) {
    const [name = '', number] = piece.split('=') as [string, string?]
    const value = spiceNumber(number ?? '')
    if (!knownOptions.includes(name.toLowerCase()))
      fault(r, line.number, name, 'is not an option that is known here', 'Known: temp, tnom, gmin.')
    else if (value === undefined) fault(r, line.number, piece, 'is not an option with a number', 'Write it as temp=25.')
    else setOption(r, line, name.toLowerCase(), value)
  }
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

function readElement(line: Line, r: Reading): void {
  const [ref = '', ...rest] = line.text.replaceAll(/\s*=\s*/g, '=').split(/\s+/)
  const letter = ref.charAt(0).toUpperCase()
  const form = forms[letter]
  if (form === undefined) {
    fault(r, line.number, ref, 'is not an element that is known here', 'Known: R, V, I, D, Q, J, M.')
    return
  }
  const made = letter in deviceKinds ? deviceElement(ref, letter, rest) : valueElement(ref, letter, rest)
  if (made === undefined)
    fault(r, line.number, line.text, 'is not an element card that is known here', `Write it as ${form}.`)
  else r.components.push({ ...made, line: line.number })
}

type Made = { readonly component: Component; readonly sizes: Readonly<Record<string, number>> } | undefined

function valueElement(ref: string, letter: string, rest: readonly string[]): Made {
  const words = letter !== 'R' && rest[2]?.toLowerCase() === 'dc' ? [...rest.slice(0, 2), ...rest.slice(3)] : rest
  const value = spiceNumber(words[2] ?? '')
  if (words.length !== 3 || value === undefined || (letter === 'R' && !(value > 0))) return undefined
  const nodes = [words[0]!.toLowerCase(), words[1]!.toLowerCase()] as const
  return { component: { kind: letter as 'R' | 'V' | 'I', ref, nodes, value }, sizes: {} }
}

function deviceElement(ref: string, letter: string, rest: readonly string[]): Made {
  const count = letter === 'D' ? 2 : letter === 'M' ? 4 : 3
  const sizes: Record<string, number> = {}
  for (const piece of rest.slice(count + 1)) {
    const [name = '', number] = piece.toLowerCase().split('=') as [string, string?]
    const value = spiceNumber(number ?? '')
    if (letter !== 'M' || !['w', 'l'].includes(name) || value === undefined || !(value > 0)) return undefined
    sizes[name] = value
  }
  if (rest.length < count + 1 || rest.slice(0, count + 1).some((w) => w.includes('='))) return undefined
  const nodes = rest.slice(0, count).map((n) => n.toLowerCase())
  return { component: { kind: letter as 'D', ref, nodes, device: rest[count]!.toLowerCase() }, sizes }
}

/** A device's model found, and a model of its own where the element gives width or length. */
function finished(made: Reading['components'][number], r: Reading): Component {
  const { component: c, line, sizes } = made
  if (!('device' in c)) return c
  const kind = deviceKinds[c.kind]
  const device = Object.hasOwn(r.devices, c.device) ? r.devices[c.device] : undefined
  if (device?.kind !== kind) {
    const fitting = Object.keys(r.devices).filter((d) => r.devices[d]!.kind === kind)
    const near = nearNames(c.device, fitting)
    const mend = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Add a .model card for it.`
    fault(r, line, c.device, `is not the model of a ${kind}`, mend)
    return c
  }
  if (Object.keys(sizes).length === 0) return c
  const own = `${c.device}:${c.ref.toLowerCase()}`
  r.devices[own] = { ...device, card: { ...device.card, ...sizes } } as Device
  return { ...c, device: own }
}

/** Cards without TNOM take that of the options. */
function withNominal(r: Reading): Readonly<Record<string, Device>> {
  const { tnom } = r.options
  if (tnom === undefined) return r.devices
  const entries = Object.entries(r.devices)
  return Object.fromEntries(entries.map(([k, d]) => [k, { ...d, card: { tnom, ...d.card } } as Device]))
}
