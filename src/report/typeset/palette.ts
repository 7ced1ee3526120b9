/**
 * Colours of paper and ink in light and dark. Verdicts use the palette of Okabe and Ito ("Color universal design",
 * 2008), which people with any usual kind of colour vision can tell apart; shape and word come before it.
 */
export interface Palette {
  readonly paper: string
  /** Background of the region a limit allows, and of a summary line. */
  readonly tint: string
  readonly ink: string
  /** Secondary text: units, conditions, sources. */
  readonly soft: string
  /** Lines that separate. */
  readonly hair: string
  /** The one accent: links and the names of steps. */
  readonly accent: string
  readonly conforms: string
  readonly fails: string
  readonly undecided: string
  readonly apart: string
}

export const lightPalette: Palette = {
  paper: '#fbf7ee',
  tint: '#f2ebdc',
  ink: '#1f1b16',
  soft: '#5c5348',
  hair: '#d8cebb',
  accent: '#6b2d5c',
  conforms: '#00845f',
  fails: '#c95400',
  undecided: '#0072b2',
  apart: '#6f6558',
}

export const darkPalette: Palette = {
  paper: '#171410',
  tint: '#24201a',
  ink: '#ece5d8',
  soft: '#b0a697',
  hair: '#40392f',
  accent: '#dba9cb',
  conforms: '#1fb286',
  fails: '#ee7d33',
  undecided: '#56b4e9',
  apart: '#9a9082',
}

/** Printing: ink on white, whatever the screen shows. */
export const printPalette: Palette = { ...lightPalette, paper: '#ffffff', tint: '#f3f1ec' }

/** The palette as CSS custom properties, `--paper` and so on. */
export const paletteCss = (p: Palette): string =>
  Object.entries(p)
    .map(([name, colour]) => `--${name}:${colour}`)
    .join(';')

function luminance(colour: string): number {
  const channel = (at: number): number => {
    const c = Number.parseInt(colour.slice(at, at + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }
  return 0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
}

/**
 * Contrast ratio of two colours, 1 to 21.
 *
 * @see WCAG 2.2, "contrast ratio" and "relative luminance"
 */
export function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number]
  return (light + 0.05) / (dark + 0.05)
}
