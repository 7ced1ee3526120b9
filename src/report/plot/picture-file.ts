import { darkPalette, lightPalette, type Palette, printPalette } from '#report/typeset'
import { drawingCss } from './style.ts'

/** How a drawing that stands alone is coloured: as the screen of its reader is set, or always so. */
export const pictureLooks = ['screen', 'light', 'dark', 'print'] as const

export type PictureLook = (typeof pictureLooks)[number]

const palettes: Readonly<Record<PictureLook, Palette>> = {
  screen: lightPalette,
  light: lightPalette,
  dark: darkPalette,
  print: printPalette,
}

/** Typeface a picture is set in, which comes with Germane. */
export const pictureFont = 'Inter'

const margin = 14

/** Style rules with the colours put in: programs that draw SVG outside a browser know no variables. */
const coloured = (css: string, p: Palette): string =>
  css.replaceAll(/var\(--(\w+)\)/g, (whole, name: string) => p[name as keyof Palette] ?? whole)

/**
 * A drawing as a file of its own: name space, style, paper and a margin. With the look `screen` it goes dark where its
 * reader's screen is dark.
 *
 * @param svg as a plot draws it
 */
export function pictureFile(svg: string, look: PictureLook = 'screen'): string {
  const css = drawingCss(`${pictureFont}, "Noto Sans", "Liberation Sans", sans-serif`)
  const rules = `${css}\n.plot .paper{fill:var(--paper);stroke:none}\n`
  const dark = look === 'screen' ? `@media (prefers-color-scheme:dark){${coloured(rules, darkPalette)}}` : ''
  const [, width = '0', height = '0'] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? []
  const [wide, high] = [Number(width) + 2 * margin, Number(height) + 2 * margin]
  const open = `<svg xmlns="http://www.w3.org/2000/svg" class="plot" role="img" viewBox="${-margin} ${-margin} ${wide} ${high}" width="${wide}" height="${high}">`
  const body = svg.replace(/^<svg [^>]*>/, '')
  const end = body.indexOf('</desc>') + '</desc>'.length
  const paper = `<rect class="paper" x="${-margin}" y="${-margin}" width="${wide}" height="${high}"/>`
  return `${open}${body.slice(0, end)}<style>${coloured(rules, palettes[look])}${dark}</style>${paper}${body.slice(end)}\n`
}
