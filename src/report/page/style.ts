import { drawingCss } from '#report/plot'
import { darkPalette, lightPalette, paletteCss, printPalette } from '#report/typeset'

const book = `Charter, "Bitstream Charter", "Iowan Old Style", "Sitka Text", Cambria, "Noto Serif", "Liberation Serif", serif`
const plain = `"Avenir Next", "Segoe UI", "Noto Sans", "Liberation Sans", system-ui, sans-serif`

const base = `
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;max-width:62rem;padding:3rem 2rem 4rem;background:var(--paper);color:var(--ink);font:1.0625rem/1.55 ${book};font-variant-numeric:lining-nums tabular-nums;overflow-wrap:break-word}
h1,h2,h3,h4,p,dl,dd,ul,figure,table{margin:0;padding:0}
h1{font-size:2.25rem;line-height:1.15;font-weight:600;letter-spacing:-.01em;margin-top:.15rem}
h2{font-size:1.4rem;line-height:1.25;font-weight:600;margin:3.25rem 0 1rem;padding-top:.8rem;border-top:1px solid var(--ink)}
h3{font-size:1.6rem;line-height:1.2;font-weight:600}
h4{font-size:1rem;font-weight:600}
p{max-width:40rem}
p+p{margin-top:.6rem}
a{color:var(--accent);text-underline-offset:.15em;text-decoration-thickness:1px}
a:focus-visible,summary:focus-visible,.scroll:focus-visible{outline:2px solid var(--accent);outline-offset:3px}
sub,sup{font-size:.72em;line-height:0;position:relative;vertical-align:baseline}
sub{top:.28em}
sup{top:-.45em}
i{font-style:italic}
.vh{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.soft,.unit,.pm{color:var(--soft)}
.fig{white-space:nowrap}
.fig .num{font-weight:600}
.unit{font-weight:400}
.outcome{white-space:nowrap}
.mark{width:.82em;height:.82em;vertical-align:-.06em;overflow:visible}
`

const heading = `
.eyebrow{color:var(--soft)}
.lead{font-size:1.3rem;line-height:1.4;margin-top:1rem}
.lead p+p{margin-top:.1rem}
.lead .mark{margin-right:.15em}
.about{display:grid;grid-template-columns:7rem minmax(0,1fr);gap:.25rem 1.5rem;margin-top:1.75rem;max-width:46rem}
.about dt{color:var(--soft)}
.about .soft{display:block;font-size:.92rem;line-height:1.4}
.summary{display:flex;flex-wrap:wrap;gap:1rem 2.75rem;margin-top:2rem;padding:0;list-style:none}
.summary b{display:block;font-size:2.6rem;line-height:1.1;font-weight:600}
.notes{margin-top:1.75rem;padding-left:1.1rem;border-left:2px solid var(--accent)}
.notes p{white-space:pre-line}
`

const tables = `
.scroll{overflow-x:auto;margin-top:1.5rem}
.scroll+.scroll{margin-top:2.5rem}
table{border-collapse:collapse;font-size:.97rem;line-height:1.35}
caption{text-align:left;caption-side:top;padding-bottom:.5rem;font-weight:600}
th,td{padding:.42rem 0 .42rem 1.4rem;text-align:left;vertical-align:baseline}
th:first-child,td:first-child{padding-left:0}
thead th{font-weight:400;color:var(--soft);vertical-align:bottom;border-bottom:1px solid var(--ink);line-height:1.25}
thead .sym{display:block;color:var(--ink);font-size:1.05rem}
thead .name{display:block;font-size:.85rem;max-width:8.5rem;white-space:normal;margin-left:auto}
tbody tr{border-bottom:1px solid var(--hair)}
tbody th{font-weight:600}
.n{text-align:right;white-space:nowrap}
.parts{width:100%}
.parts tbody th{position:sticky;left:0;background:var(--paper);padding-right:.4rem;white-space:nowrap}
.parts .because{color:var(--soft);margin-left:.6em;white-space:nowrap}
.none{color:var(--soft)}
.at{color:var(--soft)}
.limits td:last-child{max-width:20rem;font-size:.9rem}
.readings td{white-space:nowrap}
.readings td:last-child{white-space:normal;min-width:8rem}
`

const plots = `
figure{margin-top:2.25rem}
figure img{max-width:100%;height:auto}
figcaption{font-size:.95rem;line-height:1.4;max-width:44rem;margin-top:.35rem}
.key{display:flex;flex-wrap:wrap;gap:.1rem 1.4rem;list-style:none;padding:0;margin-top:.3rem}
${drawingCss()}
.plot.narrow{display:none}
`

const sections = `
.part{margin-top:3rem;padding-top:1rem;border-top:1px solid var(--hair)}
.part:first-of-type{border-top:0;padding-top:0;margin-top:0}
.part header{display:flex;flex-wrap:wrap;align-items:baseline;gap:.2rem 1.25rem}
.part header .outcome{font-size:1.15rem;margin-left:auto}
.part .kind{color:var(--soft)}
.part .plead{margin-top:.4rem}
.result{display:grid;grid-template-columns:9.5rem minmax(0,1fr);gap:0 1.75rem;margin-top:1.9rem}
.result>h4 .sym{display:block;font-size:1.5rem;font-weight:400;line-height:1.3}
.result>h4 .name{font-weight:400;color:var(--soft);font-size:.95rem;line-height:1.3;display:block}
p.value{font-size:1.5rem;line-height:1.3}
.again{margin-top:1.3rem}
.again p.value{font-size:1.2rem}
.held{margin-top:.7rem;list-style:none;padding:0}
.held>li+li{margin-top:.7rem}
.held p{margin:0}
.held .why{color:var(--soft)}
.untested{margin-top:1.9rem;color:var(--soft)}
.held .word{font-weight:600}
.at .num,.held .num,.limits .num,.readings .num,.readings th{font-weight:400}
.source{color:var(--soft);font-size:.92rem;line-height:1.4}
.doubt{margin-top:.6rem;padding-left:.9rem;border-left:2px solid var(--accent)}
.doubt b{font-weight:600}
`

const workings = `
details{margin-top:.8rem}
summary{cursor:pointer;color:var(--accent);width:fit-content}
.working{margin-top:.5rem}
.eq{display:grid;grid-template-columns:minmax(3.2rem,max-content) auto minmax(0,1fr);gap:.2rem .5rem;align-items:center;margin-top:.75rem;font-size:1.06rem}
.eq .which{grid-column:1/-1;color:var(--ink)}
.eq .lhs{text-align:right}
.eq .rhs{overflow-wrap:anywhere}
.eq .source{grid-column:3}
.frac{display:inline-grid;text-align:center;vertical-align:middle;line-height:1.3}
.frac>span:first-child{border-bottom:1px solid currentColor;padding:0 .3em .12em}
.frac>span:last-child{padding:.12em .3em 0}
.stroke{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.inputs,.budget{margin-top:1.1rem;width:100%;font-size:.93rem}
.inputs caption,.budget caption{font-weight:400;color:var(--soft);padding-bottom:.2rem}
.inputs th,.budget tbody th{font-weight:400}
.inputs th,.inputs td,.budget th,.budget td{padding-top:.25rem;padding-bottom:.25rem}
.budget thead th{font-size:.85rem}
.budget .bar{width:34%;padding-right:0}
.budget .bar svg{display:block;width:100%;height:.6rem}
.budget .bar svg{background:var(--tint);fill:var(--accent)}
.coverage{color:var(--soft);font-size:.92rem;margin-top:.4rem}
`

const foot = `
.foot{font-size:.95rem}
.foot ul{padding-left:1.1rem;max-width:44rem}
.foot li+li{margin-top:.35rem}
.top{font-size:.92rem}
`

const small = `
@media (max-width:40rem){
body{padding:1.5rem 1rem 3rem;font-size:1rem}
h1{font-size:1.7rem}
.lead{font-size:1.15rem}
.about{grid-template-columns:5rem minmax(0,1fr);gap:.25rem 1rem}
.summary{gap:.8rem 1.75rem}
.summary b{font-size:2rem}
.plot.wide{display:none}
.plot.narrow{display:block}
th,td{padding-left:1rem}
.part header .outcome{margin-left:0}
.result{grid-template-columns:minmax(0,1fr)}
.result>h4{display:flex;align-items:baseline;gap:.7rem}
.inputs thead{display:none}
.inputs tr{display:grid;grid-template-columns:minmax(0,1fr) auto;padding:.25rem 0}
.inputs th,.inputs td{padding:0}
.inputs td:last-child{grid-column:1/-1}
.budget .bar{width:22%}
.scroll>.plot{max-width:none}
}
`

const print = `
@page{size:A4;margin:15mm 16mm 17mm}
@page{@bottom-center{content:counter(page) " / " counter(pages);font:9pt ${plain};color:#5c5348}}
@media print{
:root{color-scheme:light;${paletteCss(printPalette)}}
html{font-size:9.2pt}
body{max-width:none;padding:0;font-size:1rem;line-height:1.36}
.result{margin-top:1.2rem}
.again{margin-top:.9rem}
details{margin-top:.4rem}
.working{margin-top:.2rem}
.inputs,.budget{margin-top:.7rem}
.eq{margin-top:.5rem}
.inputs th,.inputs td,.budget th,.budget td{padding-top:.14rem;padding-bottom:.14rem}
h2{margin-top:9mm}
h2,h3,h4,caption,thead,.part header,.plead{break-after:avoid}
p,tr,figure,.eq,.inputs,.budget,.held>li,.doubt,.about>*{break-inside:avoid}
thead{display:table-header-group}
.scroll{overflow:visible}
.plot.wide{display:block}
.plot.narrow,.top{display:none}
.result>h4,p.value{break-after:avoid}
.result{display:block;position:relative;padding-left:11.25rem}
.result>h4{position:absolute;left:0;top:0;width:9.5rem}
.one,.working{break-inside:avoid}
.result>h4+div{min-height:3.5rem}
details:not([open]){display:none}
summary{color:var(--soft);list-style:none;break-after:avoid}
.shared:has(details:not([open])){display:none}
summary::-webkit-details-marker{display:none}
a{color:inherit;text-decoration:none}
p,li{orphans:3;widows:3}
.foot{break-inside:avoid}
}
`

/** The whole style sheet; the page asks for nothing from outside. */
export const pageCss = (): string =>
  [
    `:root{color-scheme:light dark;${paletteCss(lightPalette)}}`,
    `@media screen and (prefers-color-scheme:dark){:root{${paletteCss(darkPalette)}}}`,
    base,
    heading,
    tables,
    plots,
    sections,
    workings,
    foot,
    small,
    print,
  ]
    .join('')
    .replaceAll('\n\n', '\n')
