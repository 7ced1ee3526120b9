import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const root = join(import.meta.dirname, '..')
const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).map((f) => f.replaceAll('\\', '/'))
const sheets = files.filter((f) => f.endsWith('.css'))
const code = files.filter((f) => /\.tsx?$/.test(f) && !/\.test\.tsx?$/.test(f))
const folderOf = (file: string): string => file.split('/')[0]!
const textOf = (file: string): string => readFileSync(join(root, file), 'utf8')

const selectorsOf = (file: string): readonly string[] =>
  [
    ...textOf(file)
      .replaceAll(/\/\*.*?\*\//gs, '')
      .matchAll(/([^{};]+)\{/g),
  ].flatMap((m) => m[1]!.split(','))

/** Classes that a style sheet gives rules to by themselves, wherever they stand. */
const ownClasses = (file: string): readonly string[] =>
  selectorsOf(file).flatMap((s) => /^\s*\.([\w-]+)\s*$/.exec(s)?.[1] ?? [])

/** Folders by the classes they give rules to. */
function foldersBy(classesOf: (file: string) => readonly string[]): ReadonlyMap<string, ReadonlySet<string>> {
  const owners = new Map<string, Set<string>>()
  for (const file of sheets)
    for (const name of classesOf(file)) owners.set(name, (owners.get(name) ?? new Set()).add(folderOf(file)))
  return owners
}

test('no screen styles a class of another: the sheets of all screens are on the page together', () => {
  const owners = foldersBy(ownClasses)
  const shared = [...owners]
    .filter(([, folders]) => folders.size > 1)
    .map(([name, folders]) => [name, ...folders].join(' '))
  expect(owners.size).toBeGreaterThan(100)
  // The theme takes the top line off what is printed.
  expect(shared.filter((one) => !/^(skip|top) /.test(one))).toEqual([])
})

/** Folders whose sheets are there as soon as code of this folder is: its own, those it imports, and the frame's. */
function loadedWith(folder: string, seen = new Set(['theme', 'shell', 'find', 'start'])): ReadonlySet<string> {
  seen.add(folder)
  for (const file of code.filter((f) => folderOf(f) === folder))
    for (const [, next] of textOf(file).matchAll(/'#web\/([\w-]+)'/g)) if (!seen.has(next!)) loadedWith(next!, seen)
  return seen
}

/** Classes an element is given in so many words. */
const givenIn = (file: string): readonly string[] =>
  [...textOf(file).matchAll(/className=(?:"([^"]*)"|\{([^}]*)\})/g)].flatMap(([, plain, made]) =>
    (plain ?? [...made!.matchAll(/['"`]([^'"`]*)['"`]/g)].map((m) => m[1]).join(' ')).split(/[^\w-]+/),
  )

test('no screen leans on a sheet that comes with another: a screen opened first looks as it does later', () => {
  const owners = foldersBy((file) =>
    selectorsOf(file).flatMap((s) => [...s.matchAll(/\.([a-zA-Z][\w-]*)/g)].map((m) => m[1]!)),
  )
  const leaning = code.flatMap((file) => {
    const loaded = loadedWith(folderOf(file))
    const lacks = (name: string): boolean => owners.has(name) && ![...owners.get(name)!].some((f) => loaded.has(f))
    return givenIn(file)
      .filter(lacks)
      .map((name) => `${file} ${name}: styled in ${[...owners.get(name)!].join(', ')} alone`)
  })
  // A letter symbol is set plainly wherever it stands; screens that set it otherwise say so in their own sheet.
  expect(leaning.filter((one) => !one.startsWith('typeset/typeset.tsx symbol'))).toEqual([])
})
