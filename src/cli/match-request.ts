import { type Fault, FaultError } from '#core/fault'
import { type MatchRequest, type MatchRequestInput, matchRequestSchema, matchWants } from '#core/match'
import { checkWith, dataDocument, nearNames, readYaml, type TextDocument } from '#core/text'
import { readInput } from './input.ts'
import { badOption } from './options.ts'

/** What a person may say of a request, as options. */
export interface RequestOptions {
  readonly request?: string
  readonly want?: string
  readonly size?: string
  readonly sets?: string
  readonly by?: string
  readonly within?: string
  readonly between?: string
  readonly same?: string
  readonly across?: string
  readonly together?: string
  readonly objective?: string
  readonly exclude?: string
  readonly reserve?: string
  readonly seed?: string
}

export const listed = (text: string | undefined): readonly string[] =>
  text === undefined ? [] : text.split(',').flatMap((one) => (one.trim() === '' ? [] : [one.trim()]))

/** The request a file, a common want and options make together; what options say comes first. @throws {FaultError} */
export function requestOf(o: RequestOptions): MatchRequest {
  const base = baseOf(o)
  const said = saidBy(o)
  if (base === undefined) {
    if (said.by === undefined) throw nothingToMatchBy
    return checked(dataDocument(said), said)
  }
  if (Object.keys(said).length === 0) return checked(base, said)
  return checked(dataDocument({ ...(base.data as object), ...said }), said)
}

const nothingToMatchBy = new FaultError({
  code: 'usage',
  problem: 'Nothing was named to match by',
  mend: 'Add for example --by ln_hfe:0.05,vbe_mV:5, or a common want with --want.',
})

function checked(document: TextDocument, said: Partial<MatchRequestInput>): MatchRequest {
  const read = checkWith(matchRequestSchema, document)
  if (read.ok) return read.data
  throw new FaultError(read.faults.map((fault) => ofOption(fault, said)))
}

/** A fault about what an option said names the option. */
function ofOption(fault: Fault, said: Partial<MatchRequestInput>): Fault {
  if (fault.code !== 'bad-input' || fault.place.file !== undefined) return fault
  const [key] = (fault.place.field ?? '').split(/[.[]/)
  return key !== undefined && key in said ? { ...fault, place: { field: `--${key}` } } : fault
}

/** A whole number typed after an option. @throws {FaultError} naming option, value and mend */
function whole(option: string, text: string | undefined): number | undefined {
  if (text === undefined || /^\s*\d+\s*$/.test(text)) return text === undefined ? undefined : Number(text)
  throw badOption(option, text, 'is not a whole number', `Write for example ${option} 2.`)
}

function baseOf({ request, want }: RequestOptions): TextDocument | undefined {
  if (request !== undefined && want !== undefined)
    throw new FaultError({ code: 'usage', problem: 'Both --request and --want were given', mend: 'Give one of them.' })
  if (want !== undefined) return dataDocument(wantNamed(want))
  if (request === undefined) return undefined
  const { text, file } = readInput(request)
  const read = readYaml(text, { file })
  if (!read.ok) throw new FaultError(read.faults)
  return read.document
}

function wantNamed(name: string): MatchRequestInput {
  const found = matchWants.find((one) => one.name === name)
  if (found !== undefined) return found.request
  const names = matchWants.map((one) => one.name)
  throw new FaultError({
    code: 'not-found',
    what: 'common want',
    name,
    near: nearNames(name, names).length > 0 ? nearNames(name, names) : names,
  })
}

/** Only what was said: the rest is left to the file, the want or the defaults. */
function saidBy(o: RequestOptions): Partial<MatchRequestInput> {
  const all = {
    size: whole('--size', o.size),
    sets: whole('--sets', o.sets),
    by: o.by === undefined ? undefined : parametersOf(o),
    objective: o.objective as MatchRequestInput['objective'],
    same: o.same === undefined ? undefined : [...listed(o.same)],
    across: o.across,
    together:
      o.together === undefined ? undefined : listed(o.together).map((group) => group.split('+').map((t) => t.trim())),
    exclude: o.exclude === undefined ? undefined : [...listed(o.exclude)],
    reserve: o.reserve === undefined ? undefined : [...listed(o.reserve)],
    seed: whole('--seed', o.seed),
  }
  return Object.fromEntries(
    Object.entries(all).filter(([, value]) => value !== undefined),
  ) as Partial<MatchRequestInput>
}

function parametersOf(o: RequestOptions): MatchRequestInput['by'] {
  const within = new Map(listed(o.within).map((one) => [nameOf(one), limitOf(one)]))
  const between = new Map(listed(o.between).map((one) => [nameOf(one), windowOf(one)]))
  const named = listed(o.by).map(nameOf)
  for (const [option, names] of [
    ['--within', within.keys()],
    ['--between', between.keys()],
  ] as const)
    for (const name of names)
      if (!named.includes(name))
        throw badOption(option, name, 'is not named in --by', `Add it there, or name one of: ${named.join(', ')}.`)
  return listed(o.by).map((one) => {
    const limit = within.get(nameOf(one))
    return {
      name: nameOf(one),
      scale: numberOf('--by', one),
      ...(limit === undefined ? {} : { within: limit }),
      ...between.get(nameOf(one)),
    }
  })
}

const nameOf = (one: string): string => one.replace(/:[^:]*$/, '')

function numberOf(option: string, one: string): number {
  const text = one.includes(':') ? one.slice(one.lastIndexOf(':') + 1) : '1'
  const value = Number(text)
  if (text.trim() !== '' && Number.isFinite(value) && value > 0) return value
  throw wrong(option, one, 'has no number above 0 after the colon')
}

function limitOf(one: string) {
  const text = one.slice(one.lastIndexOf(':') + 1).trim()
  const number = numberOf('--within', `:${text.replace(/^x/i, '').replace(/%$/, '')}`)
  if (text.endsWith('%')) return { percent: number }
  return /^x/i.test(text) ? { ratio: number } : { absolute: number }
}

function windowOf(one: string): { readonly min?: number; readonly max?: number } {
  const found = /:\s*([-+.\de]*)\s*\.\.\s*([-+.\de]*)\s*$/i.exec(one)
  const [low, high] = [found?.[1] ?? '', found?.[2] ?? '']
  const [min, max] = [low, high].map((text) => (text === '' ? undefined : Number(text)))
  if ((low === '' && high === '') || Number.isNaN(min) || Number.isNaN(max))
    throw badOption('--between', one, 'is no window', 'Write a name and two numbers, hfe:80..160; one may be left out.')
  if (min !== undefined && max !== undefined && min > max)
    throw badOption(
      '--between',
      one,
      'begins above its end',
      `Write the lower number first: ${nameOf(one)}:${max}..${min}.`,
    )
  return { ...(min === undefined ? {} : { min }), ...(max === undefined ? {} : { max }) }
}

const wrong = (option: string, value: string, problem: string): FaultError =>
  badOption(option, value, problem, 'Write a column and a number: vbe_mV:5.')
