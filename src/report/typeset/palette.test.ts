import { describe, expect, test } from 'vitest'
import { contrast, darkPalette, lightPalette, type Palette, paletteCss, printPalette } from './palette.ts'

describe('contrast', () => {
  test('black on white is 21 to 1, a colour on itself 1 to 1 (WCAG 2.2, contrast ratio)', () =>
    expect([contrast('#000000', '#ffffff'), contrast('#6b2d5c', '#6b2d5c')]).toEqual([21, 1]))

  test('#767676 on white is the well-known 4.54 to 1', () =>
    expect(contrast('#767676', '#ffffff').toFixed(2)).toBe('4.54'))
})

const palettes: readonly (readonly [string, Palette])[] = [
  ['light', lightPalette],
  ['dark', darkPalette],
  ['print', printPalette],
]

describe.each(palettes)('the %s palette', (_, p) => {
  test.each(['ink', 'soft', 'accent'] as const)(
    '%s can be read as text on paper and tint (WCAG 2.2, 1.4.3: 4.5 to 1)',
    (name) => {
      expect(contrast(p[name], p.paper)).toBeGreaterThanOrEqual(4.5)
      expect(contrast(p[name], p.tint)).toBeGreaterThanOrEqual(4.5)
    },
  )

  test.each(['conforms', 'fails', 'undecided', 'apart'] as const)(
    'the mark "%s" stands out on paper and tint (WCAG 2.2, 1.4.11: 3 to 1)',
    (name) => {
      expect(contrast(p[name], p.paper)).toBeGreaterThanOrEqual(3)
      expect(contrast(p[name], p.tint)).toBeGreaterThanOrEqual(3)
    },
  )

  test('it becomes custom properties', () => expect(paletteCss(p)).toContain(`--paper:${p.paper};`))
})
