import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { darkPalette, lightPalette, markCss, type Palette, printPalette } from '#report/typeset'

const css = readFileSync(join(import.meta.dirname, 'ink.css'), 'utf8')
const bare = (text: string): string => text.replaceAll(/\s+/g, '').replaceAll(';}', '}')

/** Colours set by each block of rules that sets the paper. */
const palettes = [...css.matchAll(/\{([^{}]*--paper:[^{}]*)\}/g)].map(([, block]) =>
  Object.fromEntries([...block!.matchAll(/--(\w+):\s*(#[0-9a-f]{6})/g)].map(([, name, colour]) => [name, colour])),
)

test.each([
  ['light', 0, lightPalette],
  ['dark as the machine is set', 1, darkPalette],
  ['dark by choice', 2, darkPalette],
  ['printed', 3, printPalette],
] as const)('the colours of the page are those of the report: %s', (_, at, palette: Palette) =>
  expect(palettes[at]).toEqual(palette),
)

test('verdicts have the shapes of the report', () => {
  for (const rule of markCss()
    .split('\n')
    .flatMap((line) => line.split(/(?<=\})/)))
    expect(bare(css)).toContain(bare(rule))
})

test('no style waits for motion', () => expect(css).not.toMatch(/transition|animation/))
