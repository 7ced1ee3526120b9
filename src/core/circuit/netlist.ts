import { type Fault, FaultError, type Place } from '#core/fault'
import { nearNames, type ReadOptions } from '#core/text'
import { type Circuit, type Component, type Device, deviceKinds, kindNames } from './circuit.ts'
import { readModelCard } from './model-card.ts'
import { unknownCommand } from './netlist-command.ts'
import { type MadeElement, readElement } from './netlist-element.ts'
import { type Line, lineOf, logicalLines, wordsOf } from './netlist-line.ts'
import { repeatedNames } from './read-circuit.ts'
import { spiceNumber } from './spice-number.ts'

/** What is gathered while reading. */
interface Reading {
  readonly file: string | undefined
  readonly components: (MadeElement & { readonly line: number })[]
  readonly devices: Map<string, Device>
  /** Names of models whose cards have faults: what uses them has no fault of its own. */
  readonly refused: Set<string>
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
  const r: Reading = {
    file: options.file,
    components: [],
    devices: new Map(),
    refused: new Set(),
    faults: [],
    options: {},
  }
  if (looksLikeCard(titleLine))
    fault(r, 1, titleLine.trim(), 'stands where the title goes', 'Put a line with a title above it, as SPICE asks.')
  for (const line of withoutProgramme(logicalLines(rest)))
    if (line.text.startsWith('.')) readCommand(line, r)
    else takeElement(line, r)
  const components = r.components.map((c) => finished(c, r))
  const refs = components.map((c) => c.ref.toUpperCase())
  r.faults.push(...repeatedNames(refs, (k) => placeOf(r, r.components[k]!.line)))
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

/** Lines of a programme between `.control` and `.endc` taken out; the first is left, and refused. */
function withoutProgramme(lines: readonly Line[]): readonly Line[] {
  let isInside = false
  return lines.filter(({ text }) => {
    const wasInside = isInside
    if (/^\.control\b/i.test(text)) isInside = true
    if (/^\.endc\b/i.test(text)) isInside = false
    return !wasInside
  })
}

const placeOf = (r: Reading, line: number): Place => (r.file === undefined ? { line } : { file: r.file, line })

function fault(r: Reading, line: number, value: string, problem: string, mend: string): void {
  r.faults.push({ code: 'bad-input', place: placeOf(r, line), value: value.slice(0, 80), problem, mend })
}

function readCommand(line: Line, r: Reading): void {
  const [word = '', ...rest] = wordsOf(line)
  switch (word.toLowerCase()) {
    case '.op':
      if (rest.length > 0) fault(r, line.number, line.text, 'has words after .op', 'Write it as .op.')
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
    default: {
      const { problem, mend } = unknownCommand(word)
      fault(r, line.number, word, problem, mend)
    }
  }
}

function readModel(line: Line, r: Reading): void {
  const read = readModelCard(line.text, placeOf(r, line.number))
  if ('device' in read) {
    if (r.devices.has(read.name)) fault(r, line.number, read.name, 'stands for two models', 'Rename one.')
    else r.devices.set(read.name, read.device)
    return
  }
  r.refused.add(wordsOf(line)[1]?.toLowerCase() ?? '')
  for (const f of read) r.faults.push(f.code === 'bad-input' ? { ...f, place: placeOf(r, lineOf(line, f.value)) } : f)
}

const knownOptions = ['temp', 'tnom', 'gmin']

function setOption(r: Reading, line: Line, name: string, value: number): void {
  const low = name === 'gmin' ? 0 : -273
  if (value < low || value > 1000) fault(r, line.number, `${name}=${value}`, 'is not a value it can have', 'Check it.')
  else r.options[name] = value
}

function readOptions(line: Line, r: Reading): void {
  for (const piece of wordsOf(line).slice(1)) {
    const [name = '', number] = piece.split('=') as [string, string?]
    const value = spiceNumber(number ?? '')
    if (!knownOptions.includes(name.toLowerCase()))
      fault(r, lineOf(line, name), name, 'is not an option that is known here', 'Known: temp, tnom, gmin.')
    else if (value === undefined)
      fault(r, lineOf(line, piece), piece, 'is not an option with a number', 'Write it as temp=25.')
    else setOption(r, line, name.toLowerCase(), value)
  }
}

function takeElement(line: Line, r: Reading): void {
  const made = readElement(wordsOf(line))
  if ('component' in made) r.components.push({ ...made, line: line.number })
  else fault(r, lineOf(line, made.value), made.value, made.problem, made.mend)
}

/** A device's model found, and a model of its own where the element gives width or length. */
function finished(made: Reading['components'][number], r: Reading): Component {
  const { component: c, line, sizes } = made
  if (!('device' in c)) return c
  const kind = deviceKinds[c.kind]
  const device = r.devices.get(c.device)
  if (device === undefined && r.refused.has(c.device)) return c
  if (device?.kind !== kind) {
    const fitting = [...r.devices.keys()].filter((d) => r.devices.get(d)!.kind === kind)
    const near = nearNames(c.device, fitting)
    const mend = near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Add a .model card for it.`
    fault(r, line, c.device, `is not the model of a ${kindNames[kind]}`, mend)
    return c
  }
  if (Object.keys(sizes).length === 0) return c
  const own = `${c.device}:${c.ref.toLowerCase()}`
  r.devices.set(own, { ...device, card: { ...device.card, ...sizes } } as Device)
  return { ...c, device: own }
}

/** Cards without TNOM take that of the options. */
function withNominal(r: Reading): Readonly<Record<string, Device>> {
  const { tnom } = r.options
  const entries = [...r.devices]
  if (tnom === undefined) return Object.fromEntries(entries)
  return Object.fromEntries(entries.map(([k, d]) => [k, { ...d, card: { tnom, ...d.card } } as Device]))
}
