import { describe, expect, test } from 'vitest'
import { figureHtml, figureText, measuredFigure, plainFigure } from './figure.ts'

describe('a figure in its parts', () => {
  test('value, half-width and unit', () =>
    expect(measuredFigure(118.2, 6.1, '1')).toEqual({ number: '118', plusMinus: '6', unit: '' }))

  test('prefix with the unit', () =>
    expect(measuredFigure(0.0000125, 0.0000004, 'A')).toEqual({ number: '12.5', plusMinus: '0.4', unit: '\u00b5A' }))

  test('a value without doubt has no half-width', () =>
    expect(measuredFigure(4.5, 0, 'V')).toEqual({ number: '4.5', unit: 'V' }))

  test('a power of ten where no prefix fits', () =>
    expect(plainFigure(2.2e-16, '1', 2)).toEqual({ number: '2.2', power: -16, unit: '' }))
})

describe('a figure as people read it', () => {
  test('in plain text, with a true minus', () =>
    expect(figureText(measuredFigure(-0.65, 0.011, 'V'))).toBe('\u2212650 \u00b1 11 mV'))

  test('with a power of ten', () =>
    expect(figureText(measuredFigure(3.1e12, 4e10, '1'))).toBe('(3.10 \u00b1 0.04) \u00d7 10^12'))

  test('on the page the unit stands apart', () =>
    expect(figureHtml(measuredFigure(0.21, 0.005, 'V')).markup).toBe(
      '<span class="fig"><span class="num">210</span><span class="pm"> \u00b1 5</span><span class="unit">\u2009mV</span></span>',
    ))

  test('a power of ten is raised', () =>
    expect(figureHtml(plainFigure(2.2e-16, '1', 2)).markup).toContain('<sup>\u221216</sup>'))
})
