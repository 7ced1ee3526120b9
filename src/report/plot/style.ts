import { markCss, type Palette } from '#report/typeset'

/** Colours of series, in their order; each series has its own shape of mark as well. */
export const seriesColours = [
  'ink',
  'accent',
  'undecided',
  'fails',
  'conforms',
  'apart',
] as const satisfies readonly (keyof Palette)[]

/** Typeface of a drawing: what is there of it. */
const plain = `"Avenir Next", "Segoe UI", "Noto Sans", "Liberation Sans", system-ui, sans-serif`

const seriesCss = seriesColours
  .map(
    (c, i) =>
      `.plot .line.s${i}{stroke:var(--${c})}\n.plot .point.s${i}{fill:var(--${c});stroke:none}\n.plot .swath.s${i}{fill:var(--${c})}`,
  )
  .join('\n')

/** Style rules of curves: lines, points, the swath of an interval. */
export const lineCss = (): string => `.plot .line{fill:none;stroke-width:1.6;stroke-linejoin:round}
.plot .dashed{stroke-dasharray:5 3.5}
.plot .swath{opacity:.25;stroke:none}
.plot .bound{stroke:var(--soft);stroke-width:1;stroke-dasharray:2 3;fill:none}
${seriesCss}`

/** Style rules of a course: bands, what lies in their middle, bounds, and the line that joins the points. */
export const courseCss = (): string => `.plot .band{fill:var(--tint)}
.plot .centre{stroke:var(--accent);stroke-width:1.4;fill:none}
.plot .edge{stroke:var(--soft);stroke-width:1;stroke-dasharray:4 3;fill:none}
.plot .trace{stroke:var(--soft);stroke-width:1;fill:none}`

/** Style rules of circuits: wires, symbols, values, and what flows and stands there. */
export const circuitCss =
  (): string => `.plot .wire,.plot .bar,.plot .envelope{stroke:var(--ink);stroke-width:1.4;fill:none}
.plot .bar{stroke-width:2.6}
.plot .body{stroke:var(--ink);stroke-width:1.4;fill:var(--paper)}
.plot .solid,.plot .joint{fill:var(--ink);stroke:none}
.plot .dash{stroke:var(--ink);stroke-width:1.4;stroke-dasharray:2 2;fill:none}
.plot .signal{stroke:var(--apart);stroke-width:1.1;fill:none}
.plot .gap{stroke:var(--paper);stroke-width:3;fill:none}
.plot .terminal{stroke:var(--ink);stroke-width:1.2;fill:var(--paper)}
.plot .flow{fill:var(--accent);stroke:none}
.plot .ref{font-weight:600}
.plot .volt,.plot .amp{fill:var(--accent)}
.plot .volt{font-weight:600}
.plot .value,.plot .volt,.plot .amp{paint-order:stroke;stroke:var(--paper);stroke-width:4px;stroke-linejoin:round}`

/** Style rules of every drawing, in the colours of the page it stands in. */
export const drawingCss = (
  font: string = plain,
): string => `.plot{display:block;max-width:100%;height:auto;font:12px ${font};font-variant-numeric:tabular-nums;overflow:visible}
.plot text{fill:var(--ink)}
.plot .label,.plot .limit-label,.plot .at{fill:var(--soft)}
.plot .title{font-size:12.5px}
.plot .group{font-weight:600}
.plot .at{font-weight:400}
.plot .group,.plot .limit-label,.plot .tag{paint-order:stroke;stroke:var(--paper);stroke-width:4px;stroke-linejoin:round}
.plot .grid{stroke:var(--hair);stroke-width:1;fill:none}
.plot .tick,.plot .axis{stroke:var(--soft);stroke-width:1;fill:none}
.plot .allowed{fill:var(--tint)}
.plot .limit{stroke:var(--ink);stroke-width:1.2;fill:none}
${courseCss()}
.plot .interval{stroke:var(--soft);stroke-width:1.3;fill:none}
.plot .many{opacity:.45;stroke-width:.9}
.plot .thin{stroke-width:.9;stroke:var(--soft);opacity:.65}
.plot .dots{fill:none;stroke-linecap:round}
${lineCss()}
${circuitCss()}
${markCss()}`
