import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'

/** Which layer may import which. Imports go down only. */
const layers: Readonly<Record<string, readonly string[]>> = {
  core: [],
  catalog: ['core'],
  book: ['core'],
  report: ['core'],
  bench: ['core', 'catalog', 'book', 'report'],
  api: ['core'],
  server: ['core', 'api', 'bench'],
  web: ['core', 'api', 'report'],
  cli: ['core', 'bench', 'server'],
}

/** Inside core each module may use what stands before it. */
const coreOrder = [
  'fault',
  'numeric',
  'quantity',
  'uncertainty',
  'text',
  'resistor',
  'physics',
  'circuit',
  'device',
  'tester',
  'sheet',
  'rehearsal',
  'reduce',
  'fit',
  'curve',
  'judge',
  'match',
  'stage',
  'job',
  'identify',
  'standin',
  'upkeep',
]

/** The only packages core may use, and where. */
const corePackages: Readonly<Record<string, readonly string[]>> = {
  zod: [
    'text',
    'circuit',
    'device',
    'tester',
    'sheet',
    'reduce',
    'fit',
    'judge',
    'match',
    'stage',
    'job',
    'identify',
    'upkeep',
  ],
  yaml: ['text'],
}

const root = join(import.meta.dirname, '..', 'src')
const files = readdirSync(root, { recursive: true, encoding: 'utf8' })
  .map((f) => f.replaceAll('\\', '/'))
  .filter((f) => /\.tsx?$/.test(f))

interface Import {
  readonly file: string
  readonly of: string
}

const isTest = (file: string): boolean => /\.(test|bench)\.tsx?$/.test(file) || file.startsWith('core/testing/')

const imports: readonly Import[] = files.flatMap((file) => {
  const text = readFileSync(join(root, file), 'utf8')
  const found = text.matchAll(/(?:^|\n)\s*(?:import|export)\s[^'"`;]*?from\s*'([^']+)'|import\(\s*'([^']+)'/g)
  return [...found].map((m) => ({ file, of: m[1] ?? m[2]! }))
})

const layerOf = (file: string): string => file.split('/')[0]!
const targetLayer = (of: string): string | undefined =>
  /^#(core|catalog|book|report|bench|api|server|web|cli)(\/|$)/.exec(of)?.[1]

describe('imports go down only', () => {
  test('there is something to check', () => expect(imports.length).toBeGreaterThan(50))

  test('no import climbs out of its folder', () => expect(imports.filter((i) => i.of.startsWith('..'))).toEqual([]))

  test('layers import only the layers below them', () => {
    const wrong = imports.filter((i) => {
      const from = layerOf(i.file)
      const to = targetLayer(i.of)
      return to !== undefined && to !== from && !layers[from]?.includes(to)
    })
    expect(wrong).toEqual([])
  })

  test('every folder of src is in the table', () =>
    expect([...new Set(files.map(layerOf))].filter((l) => !(l in layers))).toEqual([]))

  test('core modules import only modules that stand before them', () => {
    const wrong = imports.filter((i) => {
      if (layerOf(i.file) !== 'core' || !i.of.startsWith('#core/') || isTest(i.file)) return false
      const from = i.file.split('/')[1]!
      const to = i.of.split('/')[1]!
      return from === to || coreOrder.indexOf(to) < 0 || coreOrder.indexOf(to) > coreOrder.indexOf(from)
    })
    expect(wrong).toEqual([])
  })

  test('core uses no package but the ones listed, where listed, and nothing of Node', () => {
    const wrong = imports.filter((i) => {
      if (layerOf(i.file) !== 'core' || isTest(i.file) || i.of.startsWith('#') || i.of.startsWith('./')) return false
      return !corePackages[i.of]?.includes(i.file.split('/')[1]!)
    })
    expect(wrong).toEqual([])
  })

  test('core has no clock and no unseeded chance', () => {
    const wrong = files.filter(
      (f) =>
        layerOf(f) === 'core' &&
        !isTest(f) &&
        /Date\.now|new Date\(\s*\)|Math\.random|performance\.now/.test(readFileSync(join(root, f), 'utf8')),
    )
    expect(wrong).toEqual([])
  })
})
