import type { CurvePicture, PlotModel } from '#report/model'
import { intervalPlot, linePlot, scatterPlot } from '#report/plot'
import { html, type Markup, outcomeHtml, proseHtml, trusted } from '#report/typeset'

/** Widths at which a plot is drawn, px: for a page and for a telephone, type the same size in both. */
const widths = { wide: 760, narrow: 356 } as const

/** A plot of more values than this is drawn once and moved sideways where the page is narrow. */
const drawnTwice = 1000

/** A plot as a figure with its caption and a key to its shapes. */
export function plotHtml(p: PlotModel): Markup {
  const isHuge = valuesOf(p) > drawnTwice
  const drawings = isHuge
    ? html`<section class="scroll" tabindex="0" aria-label="${p.plot.title}">${drawn(p, 'once')}</section>`
    : html`${drawn(p, 'wide')}${drawn(p, 'narrow')}`
  const key = html`<ul class="key">${p.outcomes.map((o) => html`<li>${outcomeHtml(o)}</li>`)}</ul>`
  return html`<figure>${drawings}<figcaption>${proseHtml(p.caption)}${key}</figcaption></figure>\n`
}

/** Curves as a figure with its caption. */
export function curveHtml({ plot, caption }: CurvePicture): Markup {
  const drawings = (['wide', 'narrow'] as const).map((size) => sized(linePlot(plot, { width: widths[size] }), size))
  return html`<figure>${drawings}<figcaption>${proseHtml(caption)}</figcaption></figure>\n`
}

const valuesOf = (p: PlotModel): number =>
  p.kind === 'scatter' ? p.plot.points.length : p.plot.groups.reduce((n, g) => n + g.rows.length, 0)

function drawn(p: PlotModel, size: 'wide' | 'narrow' | 'once'): Markup {
  const options = { width: size === 'narrow' ? widths.narrow : widths.wide }
  const svg = p.kind === 'interval' ? intervalPlot(p.plot, options) : scatterPlot(p.plot, options)
  return sized(svg, size)
}

/** A drawing with the name of its size, by which a page shows the one that fits. */
const sized = (svg: string, size: 'wide' | 'narrow' | 'once'): Markup =>
  trusted(svg.replace('class="plot"', `class="plot ${size}"`))
