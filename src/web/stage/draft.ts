import { explain, type Fault, FaultError } from '#core/fault'
import {
  netlistExampleYaml,
  type PositionRead,
  readPosition,
  stageExampleYaml,
  type TemplatePlace,
  templateNamed,
} from '#core/stage'
import { dataDocument, readYaml, writeYaml } from '#core/text'

/** A position as its file has it: the form edits this, and its text is made from it. */
export type Draft = Readonly<Record<string, unknown>>

export type Path = readonly string[]

/** A position understood, or what is wrong with it. */
export type DraftRead =
  | { readonly ok: true; readonly read: PositionRead }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** Reads a position from a text. */
export function draftOfText(
  text: string,
): { readonly ok: true; readonly draft: Draft } | { readonly ok: false; readonly faults: readonly Fault[] } {
  const read = readYaml(text)
  if (!read.ok) return read
  try {
    readPosition(read.document)
    return { ok: true, draft: read.document.data as Draft }
  } catch (error) {
    if (error instanceof FaultError) return { ok: false, faults: error.faults }
    throw error
  }
}

/** The position that works. */
export const firstDraft = (): Draft => exampleDraft(stageExampleYaml)

/** The position with a netlist of its own that works. */
export const netlistDraft = (): Draft => exampleDraft(netlistExampleYaml)

function exampleDraft(text: string): Draft {
  const read = draftOfText(text)
  return read.ok ? read.draft : {}
}

export const draftText = (draft: Draft): string => writeYaml(draft)

export function readDraft(draft: Draft): DraftRead {
  try {
    return { ok: true, read: readPosition(dataDocument(draft)) }
  } catch (error) {
    if (error instanceof FaultError) return { ok: false, faults: error.faults }
    throw error
  }
}

/** What stands at a path, as text; empty where nothing does. */
export function textAt(draft: Draft, path: Path): string {
  let value: unknown = draft
  for (const step of path) value = typeof value === 'object' && value !== null ? (value as Draft)[step] : undefined
  return typeof value === 'string' || typeof value === 'number' ? String(value) : ''
}

/** The draft with a text at a path; an empty one takes it out. */
export function withText(draft: Draft, path: Path, text: string): Draft {
  const [step, ...rest] = path
  if (step === undefined) return draft
  const { [step]: before, ...others } = draft
  if (rest.length > 0) {
    const inner = withText(typeof before === 'object' && before !== null ? (before as Draft) : {}, rest, text)
    return Object.keys(inner).length === 0 && before === undefined ? draft : { ...draft, [step]: inner }
  }
  return text === '' ? others : { ...draft, [step]: text }
}

/** What is wrong with the value at a path, as a sentence without its place: the field is the place. */
export function faultAt(faults: readonly Fault[], path: Path): string | undefined {
  const field = path.join('.')
  const found = faults.find((f) => f.code === 'bad-input' && f.place.field === field)
  if (found?.code !== 'bad-input') return undefined
  return `${found.value === '' ? '' : `“${found.value}” `}${found.problem}. ${found.mend}`
}

/** Faults that no field shows. */
export const otherFaults = (faults: readonly Fault[], fields: readonly Path[]): readonly string[] => {
  const shown = new Set(fields.map((f) => f.join('.')))
  return faults.filter((f) => f.code !== 'bad-input' || !shown.has(f.place.field ?? '')).map(explain)
}

/** A draft of a template with the values of its example; what else was said of the position stays. */
export function draftOf(id: string, before: Draft): Draft {
  const t = templateNamed(id)
  const polarity = before.polarity === 'NPN' ? 'NPN' : 'PNP'
  const all = [...t.resistors, ...t.thermistors]
  const { netlist: _n, values: _v, parts: _p, place: _l, beta: _b, rebias: _r, coupling: _c, ...kept } = before
  const [pnp, npn] = t.places.length > 2 ? ['AC128', 'AC127'] : ['OC71', 'OC140']
  const part = ({ ref, kind, isOpposite = false }: TemplatePlace): string | Draft => {
    if (kind === 'D') return ref === t.main ? 'OA81' : biasDiode
    return (polarity === 'PNP') !== isOpposite ? pnp : npn
  }
  return {
    ...kept,
    stage: t.id,
    polarity,
    supply: `${t.supplyV} V`,
    values: Object.fromEntries(all.map((r) => [r.ref, ohmText(r.ohm)])),
    parts: Object.fromEntries(t.places.map((p) => [p.ref, part(p)])),
  }
}

/** A junction diode of a few numbers, as was made to bias output stages: point-contact diodes drop too much there. */
const biasDiode = { name: 'bias diode', material: 'Ge', forward: '0.25 V', leakage: '10 uA' } as const

const ohmText = (ohm: number): string =>
  ohm >= 1e6 ? `${ohm / 1e6} Mohm` : ohm >= 1e3 ? `${ohm / 1e3} kohm` : `${ohm} ohm`
