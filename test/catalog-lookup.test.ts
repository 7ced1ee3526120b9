import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { build } from 'esbuild'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { loadCatalog } from '#catalog'
import { collectorLimitV, currentLimitA, findType, leadOrderDoubt, type PartType, searchTypes } from '#core/device'

let catalog: readonly PartType[]

beforeAll(async () => {
  catalog = await loadCatalog()
})

describe('names as they stand on parts', () => {
  test.each([
    ['ac128', 'AC128', 'same'],
    ['0C71', 'OC71', 'same'],
    ['МП42Б', 'MP42B', 'same'],
    ['2N404-A', '2N404A', 'same'],
    ['BZX79 C5.1', 'BZX79-C5V1', 'same'],
    ['B54', '2SB54', 'short'],
    ['c1815', '2SC1815', 'short'],
    ['JAN2N2222A', '2N2222A', 'quality'],
    ['BC548B', 'BC548B', 'rank'],
    ['2SC1815-GR', '2SC1815GR', 'rank'],
    ['BD139-10', 'BD139-10', 'rank'],
    ['BC182L', 'BC182', 'suffix'],
    ['BT151-500R', 'BT151-500', 'suffix'],
  ])('%s is %s (%s)', (text, type, how) => {
    expect(findType(catalog, text).found).toMatchObject({ partType: { type }, how })
  })

  test.each([
    ['2N2222', '2N2222A'],
    ['1N4733', '1N4733A'],
    ['TIC106', 'TIC106D'],
    ['C106', 'C106A'],
    ['AC 182', 'AC128'],
  ])('%s is not guessed, but %s is near', (text, near) => {
    const search = findType(catalog, text)
    expect(search.found).toBeUndefined()
    expect(search.near).toContain(near)
  })

  test('every type is found by its own number', () => {
    expect(catalog.filter((t) => findType(catalog, t.type.toLowerCase()).found?.partType !== t)).toEqual([])
  })
})

describe('questions a bench asks', () => {
  const typeOf = (name: string): PartType => findType(catalog, name).found!.partType

  test('voltage, current and lead order of known types', () => {
    expect(collectorLimitV(typeOf('AC128'))).toMatchObject({ value: 16, how: 'published V_CEO' })
    expect(collectorLimitV(typeOf('OC71'))).toMatchObject({ published: false })
    expect(collectorLimitV(typeOf('2SB54'))).toBeUndefined()
    expect(currentLimitA(typeOf('1N34A'))).toMatchObject({ value: 0.05, how: 'published I_F(AV)' })
    expect(leadOrderDoubt(typeOf('BC547'))).toBeUndefined()
    expect(leadOrderDoubt(typeOf('BC182'))).toContain('BC182L')
    expect(leadOrderDoubt(typeOf('BF245A'))).toContain('is not settled')
  })

  test('a search by material, polarity and limits', () => {
    const found = searchTypes(catalog, { material: 'Ge', polarity: 'NPN', within: { I_C: { min: 1 } } }).map(
      (t) => t.type,
    )
    expect(found).toEqual(['AC176', 'AC187', 'AD161'])
  })
})

describe('in a bundle', () => {
  const folder = mkdtempSync(join(tmpdir(), 'germane-catalog-'))
  afterAll(() => rmSync(folder, { recursive: true, force: true }))

  test('the records stand in a part of their own, loaded when first asked for', async () => {
    const root = join(import.meta.dirname, '..')
    const made = await build({
      entryPoints: { catalog: join(root, 'src/catalog/load-catalog.ts') },
      outdir: folder,
      bundle: true,
      splitting: true,
      format: 'esm',
      outExtension: { '.js': '.mjs' },
      metafile: true,
    })
    const sizes = Object.values(made.metafile.outputs).map((o) => o.bytes)
    expect(Math.min(...sizes)).toBeLessThan(2_000)
    const bundled = await import(pathToFileURL(join(folder, 'catalog.mjs')).href)
    expect(await bundled.loadCatalog()).toEqual(catalog)
  })
})
