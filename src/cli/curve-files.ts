import { readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { CurveFile, DrawerFile } from '#bench'
import { FaultError } from '#core/fault'
import { type FitKind, fitKinds } from '#core/fit'
import { nearNames } from '#core/text'
import { readInput } from './input.ts'
import { badOption } from './options.ts'

/** The files of some names: of a folder all that end in .csv, in the order of their names. @throws {FaultError} */
export function curveFiles(named: readonly string[]): readonly CurveFile[] {
  if (named.length === 0)
    throw new FaultError({
      code: 'usage',
      problem: 'No curve was named',
      mend: 'Name a file or a folder, give - for standard input, or see --example.',
    })
  return named.flatMap(namesOf).map(readInput)
}

/** The same for a drawer: where several are named, a file that cannot be read is told with what is wrong with it. */
export function drawerFiles(named: readonly string[]): readonly DrawerFile[] {
  const names = named.flatMap(namesOf)
  if (names.length < 2) return curveFiles(named)
  return names.map((file) => {
    try {
      return readInput(file)
    } catch (error) {
      if (!(error instanceof FaultError)) throw error
      return { file, faults: error.faults }
    }
  })
}

/** A name, or of a folder those inside it that end in .csv. */
function namesOf(name: string): readonly string[] {
  if (name === '-' || statSync(name, { throwIfNoEntry: false })?.isDirectory() !== true) return [name]
  const found = readdirSync(name)
    .filter((f) => /\.csv$/i.test(f))
    .sort()
  if (found.length > 0) return found.map((f) => join(name, f))
  throw new FaultError({
    code: 'file',
    file: name,
    problem: 'holds no file that ends in .csv',
    mend: 'Name another folder, or the files themselves.',
  })
}

/** A kind of part as it was typed. @throws {FaultError} `not-found` */
export function curveKind(typed: string): FitKind {
  const kind = fitKinds.find((k) => k === typed.toLowerCase())
  if (kind !== undefined) return kind
  throw new FaultError({
    code: 'not-found',
    what: 'kind of part to fit',
    name: typed,
    near: nearNames(typed, fitKinds),
    mend: `Kinds: ${fitKinds.join(', ')}.`,
  })
}

/** Names and values that were typed as `name=value`. @throws {FaultError} naming the option and what is no pair */
export const pairs = (option: string, all: readonly string[], mend: string): Readonly<Record<string, string>> =>
  Object.fromEntries(
    all.map((text) => {
      const [left = '', right = ''] = text.split(/=(.*)/s)
      if (left.trim() !== '' && right.trim() !== '') return [left.trim(), right.trim()]
      throw badOption(option, text, 'is not a name and its value', mend)
    }),
  )

/** What columns with other headers hold, by `--column`. */
export const columnPairs = (all: readonly string[] | undefined): Readonly<Record<string, string>> =>
  pairs('--column', all ?? [], 'Write for example Ch1=V_BE.')
