export { type Figure, figureHtml, figureText, measuredFigure, plainFigure } from './figure.ts'
export { formulaHtml, putInHtml } from './formula.ts'
export {
  dotClass,
  type Mark,
  markCss,
  markSvg,
  marks,
  type Outcome,
  outcomeClass,
  outcomeHtml,
  outcomes,
  stageOutcomes,
} from './mark.ts'
export { escapeText, html, joined, type Markup, type Piece, trusted } from './markup.ts'
export { contrast, darkPalette, lightPalette, type Palette, paletteCss, printPalette } from './palette.ts'
export { proseHtml, proseSvg, symbolHtml, symbolParts, symbolSvg, symbolText } from './symbol.ts'
