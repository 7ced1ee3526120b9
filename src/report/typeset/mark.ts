import type { StageWord } from '#core/stage'
import { html, type Markup } from './markup.ts'

/** What became of a part or a parameter, as people see it: a shape, a word, then a colour. */
export type Outcome = 'conforms' | 'does not conform' | 'undecided' | 'not comparable' | 'not judged' | 'short' | 'open'

/** Every outcome, in the order in which a summary names them. */
export const outcomes: readonly Outcome[] = [
  'conforms',
  'does not conform',
  'undecided',
  'not comparable',
  'not judged',
  'short',
  'open',
]

/** What a part does in its position, as an outcome: its shape and colour go with the word. */
export const stageOutcomes: Readonly<Record<StageWord, Outcome>> = {
  works: 'conforms',
  'works but drifts': 'undecided',
  'will not': 'does not conform',
}

/** Shape of an outcome in a box of 10 by 10 around the origin, as path data, and how it is drawn. */
export interface Mark {
  readonly path: string
  /** Name of the palette colour. */
  readonly colour: 'conforms' | 'fails' | 'undecided' | 'apart' | 'ink'
  /** `half`: outlined, and filled where the path covers itself once. */
  readonly draw: 'fill' | 'stroke' | 'half'
}

const disc = 'M-4 0a4 4 0 1 0 8 0a4 4 0 1 0 -8 0Z'
const ring = 'M-3.5 0a3.5 3.5 0 1 0 7 0a3.5 3.5 0 1 0 -7 0Z'

export const marks: Readonly<Record<Outcome, Mark>> = {
  conforms: { path: disc, colour: 'conforms', draw: 'fill' },
  'does not conform': { path: 'M-3.5 -3.5L3.5 3.5M-3.5 3.5L3.5 -3.5', colour: 'fails', draw: 'stroke' },
  undecided: { path: 'M0 -4.6L4.6 0L0 4.6L-4.6 0ZM0 -4.6L4.6 0L0 4.6Z', colour: 'undecided', draw: 'half' },
  'not comparable': { path: `${ring}M-2.4 2.4L2.4 -2.4`, colour: 'apart', draw: 'stroke' },
  'not judged': { path: 'M-3.5 0H3.5', colour: 'apart', draw: 'stroke' },
  short: { path: 'M-4 -4H4V4H-4Z', colour: 'ink', draw: 'fill' },
  open: { path: 'M-3.6 -3.6H3.6V3.6H-3.6Z', colour: 'ink', draw: 'stroke' },
}

/** Class of an outcome: `o-conforms`, `o-does-not-conform`. */
export const outcomeClass = (o: Outcome): string => `o-${o.replaceAll(' ', '-')}`

/** Class of a mere dot in the colour of an outcome. */
export const dotClass = (o: Outcome): string => `d-${o.replaceAll(' ', '-')}`

/** The shape alone, beside a word that says the same. */
export const markSvg = (o: Outcome): Markup =>
  html`<svg class="mark" viewBox="-6 -6 12 12" aria-hidden="true"><path class="${outcomeClass(o)}" d="${marks[o].path}"/></svg>`

/** Shape and word. */
export const outcomeHtml = (o: Outcome): Markup => html`<span class="outcome">${markSvg(o)} ${o}</span>`

const drawn: Readonly<Record<Mark['draw'], (colour: string) => string>> = {
  fill: (c) => `fill:${c};stroke:none`,
  stroke: (c) => `fill:none;stroke:${c};stroke-width:1.9`,
  half: (c) => `fill:${c};fill-rule:evenodd;stroke:${c};stroke-width:1.2;stroke-linejoin:round`,
}

/** Style rules that draw every mark; they hold in the page and inside its plots. */
export const markCss = (): string =>
  outcomes
    .map((o) => {
      const { colour, draw } = marks[o]
      return `.${outcomeClass(o)}{${drawn[draw](`var(--${colour})`)}}.${dotClass(o)}{stroke:var(--${colour})}`
    })
    .join('\n')
