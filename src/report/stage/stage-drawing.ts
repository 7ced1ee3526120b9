import { type Levels, type Parts, type Position, polarityAt, signOf } from '#core/stage'
import { drawing, fitted } from '#report/plot'
import { figureText, html, type Markup, plainFigure } from '#report/typeset'
import { absence, conductors, joints } from './joints.ts'
import { type DrawnFlow, type DrawnLead, type Layout, type Side, type Spot, stageWidth } from './layout.ts'
import { layoutOf } from './layouts.ts'
import {
  arrowHead,
  battery,
  diode,
  earth,
  joint,
  middleOf,
  pathThrough,
  plates,
  resistor,
  terminal,
  thermistor,
  transistor,
  waveSource,
} from './symbols.ts'

/** Three digits with their unit. */
const told = (value: number, unit: 'V' | 'A' | 'ohm'): string => figureText(plainFigure(value, unit, 3))

/** Whether there is a drawing of the template of a position. */
export const isDrawn = ({ template }: Pick<Position, 'template'>): boolean => layoutOf(template.id) !== undefined

/**
 * A stage drawn with standard symbols, its values, and, where it has a point, its voltages and currents: as wide as a
 * telephone shows it. The supply is above, the common line below with its sign, so that a PNP stage looks like an NPN one
 * whose arrows, battery and signs are turned.
 *
 * @param levels where the stage stands; without it values alone are drawn
 * @returns nothing for a template that has no drawing
 */
export function stageDrawing(position: Position, parts: Parts, levels?: Levels): string | undefined {
  const layout = layoutOf(position.template.id)
  if (layout === undefined) return undefined
  const body = [
    layout.capacitors.map((c) => signalPath(c)),
    html`<path class="wire" d="${conductors(layout, position)
      .map((s) => pathThrough(s))
      .join('')}"/>`,
    supplyOf(layout, position),
    layout.leads.map((l) => leadOf(l, position, parts)),
    layout.transistors.map((t) => transistorOf(t, position, parts)),
    joints(layout, position).map(joint),
    levels === undefined ? undefined : levelsOf(layout, position, levels),
  ]
  const size = { width: stageWidth, height: layout.height }
  return drawing(size, `${position.title}: ${position.template.title}`, description(position, parts, levels), body)
}

/** A capacitor with its wires, and its terminal where it has one. */
function signalPath({ path, at, says }: Layout['capacitors'][number]): Markup {
  const end = path.at(-1)!
  const isAcross = path.some((p, i) => i > 0 && p[1] === at[1] && path[i - 1]![1] === at[1])
  const word =
    says === undefined
      ? undefined
      : html`<text class="at" x="${end[0]}" y="${end[1] - 8}" text-anchor="middle">${says}</text>`
  return html`<path class="signal" d="${pathThrough(path)}"/>${plates(at, isAcross)}${says !== undefined && terminal(end)}${word}`
}

/** Battery and rails with their signs, or the source that drives the stage. */
function supplyOf({ battery: cell, drive, earth: foot }: Layout, p: Position): Markup {
  const isUp = signOf(p) > 0
  const line = html`${earth(foot)}<text class="at" x="${foot[0] + 14}" y="${foot[1] + 17}">common line, ${isUp ? '−' : '+'}</text>`
  const driven =
    drive === undefined ? undefined : drive.to === undefined ? terminal(drive.at) : waveSource(drive.at, drive.to)
  if (cell === undefined) return html`${line}${driven}`
  const { from, to, side } = cell
  const [x, y] = middleOf(from, to)
  const value = html`<text class="value" x="${side === 'right' ? x + 14 : x - 14}" y="${y + 4}" text-anchor="${side === 'right' ? 'start' : 'end'}">${told(p.supplyV, 'V')}</text>`
  const rail = html`<text class="at" x="${from[0]}" y="${from[1] - 8}" text-anchor="end">supply, ${isUp ? '+' : '−'}</text>`
  return html`${battery(from, to, isUp)}${value}${rail}${line}${driven}`
}

function leadOf(l: DrawnLead, p: Position, parts: Parts): Markup | undefined {
  if (absence(p, l.ref) !== undefined) return undefined
  const place = p.template.places.find((x) => x.ref === l.ref)
  if (place !== undefined) {
    const [anode, cathode] = signOf(p) > 0 ? [l.from, l.to] : [l.to, l.from]
    return html`${diode(anode, cathode)}${label(l, l.ref, fitted(parts[l.ref]?.name ?? '', 66))}`
  }
  const isThermistor = p.template.thermistors.some((t) => t.ref === l.ref)
  const value = told(p.ohm[l.ref]!, 'ohm')
  return isThermistor
    ? html`${thermistor(l.from, l.to)}${fallsText(l)}${label(l, l.ref, value, 18)}`
    : html`${resistor(l.from, l.to)}${label(l, l.ref, value)}`
}

/** The sign beside a thermistor that says that it falls. */
function fallsText({ from, to }: DrawnLead): Markup {
  const [x, y] = middleOf(from, to)
  return html`<text class="value" x="${x - 9}" y="${y + 30}" text-anchor="end">−t°</text>`
}

/** Name and value: on two lines beside a part that stands, on one above or below a part that lies. */
function label({ from, to, side }: DrawnLead, ref: string, value: string, away = 12): Markup {
  const [x, y] = middleOf(from, to)
  if (side === 'above' || side === 'below') {
    const line = side === 'above' ? y - 12 : y + 22
    return html`<text class="value" x="${x}" y="${line}" text-anchor="middle"><tspan class="ref">${ref}</tspan> ${value}</text>`
  }
  const anchor = side === 'left' ? 'end' : 'start'
  const beside = side === 'left' ? x - away : x + away
  return html`<text class="value" x="${beside}" text-anchor="${anchor}"><tspan class="ref" x="${beside}" y="${y - 2}">${ref}</tspan><tspan x="${beside}" y="${y + 12}">${value}</tspan></text>`
}

function transistorOf(t: Layout['transistors'][number], p: Position, parts: Parts): Markup | undefined {
  const place = p.template.places.find((x) => x.ref === t.ref)
  if (place === undefined) return undefined
  const [x, y] = t.at
  const name = fitted(parts[t.ref]?.name ?? '', 84)
  const words = html`<text class="value" x="${x + 24}" text-anchor="start"><tspan class="ref" x="${x + 24}" y="${y - 2}">${t.ref}</tspan><tspan x="${x + 24}" y="${y + 12}">${name}</tspan></text>`
  return html`${transistor(t, polarityAt(p, place))}${words}`
}

/** Voltages at the nodes, currents beside the wires. */
function levelsOf(layout: Layout, p: Position, { nodeV, branchA }: Levels): Markup {
  const volts = layout.voltages.map(({ node, at: [x, y], anchor }) => {
    const v = nodeV[node]
    return v === undefined || isJoinedToCommon(p, node)
      ? undefined
      : html`<text class="volt" x="${x}" y="${y}" text-anchor="${anchor}">${told(v, 'V')}</text>`
  })
  const beside = layout.leads.flatMap((l) => {
    const current = branchA[l.ref]
    if (l.flow === undefined || current === undefined) return []
    return [flow(nearStart(l), directionOf(l), l.flow, current)]
  })
  const into = layout.flows.flatMap((f) => {
    const current = branchA[f.of]
    return current === undefined ? [] : [flow(f.at, steps[f.along], f.side, current)]
  })
  return html`${volts}${beside}${into}`
}

/** An emitter whose resistor is left out stands on the common line: 0 V need not be told. */
const isJoinedToCommon = (p: Position, node: string): boolean =>
  p.template.resistors.some((r) => r.nodes[0] === node && r.nodes[1] === '0' && absence(p, r.ref) === 'wire')

const steps: Readonly<Record<DrawnFlow['along'], Spot>> = { up: [0, -1], down: [0, 1], left: [-1, 0], right: [1, 0] }

const directionOf = ({ from, to }: DrawnLead): Spot => [Math.sign(to[0] - from[0]), Math.sign(to[1] - from[1])]

/** The middle of the lead by which a part begins. */
function nearStart(l: DrawnLead): Spot {
  const [dx, dy] = directionOf(l)
  return [l.from[0] + 16 * dx, l.from[1] + 16 * dy]
}

const beside: Readonly<Record<Side, readonly [x: number, y: number, anchor: string]>> = {
  left: [-8, 4, 'end'],
  right: [8, 4, 'start'],
  above: [0, -8, 'middle'],
  below: [0, 16, 'middle'],
}

/** An arrow on the wire, the way the current goes, and how much it is. */
function flow([x, y]: Spot, [dx, dy]: Spot, side: Side, current: number): Markup {
  const way = current < 0 ? -1 : 1
  const [ox, oy, anchor] = beside[side]
  const tip: Spot = [x + 4 * dx * way, y + 4 * dy * way]
  return html`${arrowHead([x - 4 * dx * way, y - 4 * dy * way], tip, 'flow')}<text class="amp" x="${x + ox}" y="${y + oy}" text-anchor="${anchor}">${told(Math.abs(current), 'A')}</text>`
}

/** The drawing in words. */
function description(p: Position, parts: Parts, levels: Levels | undefined): string {
  const { template: t } = p
  const sign = signOf(p) > 0 ? 'positive, the common line negative' : 'negative, the common line positive'
  const values = [...t.resistors, ...t.thermistors].flatMap((r) =>
    p.ohm[r.ref] === undefined ? [] : [`${r.ref}, ${r.role}, ${told(p.ohm[r.ref]!, 'ohm')}`],
  )
  const places = t.places.map((x) => `${x.ref}, ${x.role}, ${parts[x.ref]?.name ?? 'not named'}`)
  const where =
    levels === undefined
      ? 'No operating point is shown.'
      : `At ${shortNumber(levels.point.ambientC)} °C${t.states.length > 1 ? `, ${levels.state}` : ''}: ${[
          ...Object.entries(levels.nodeV).flatMap(([node, v]) => (node === '0' ? [] : [`${node} ${told(v, 'V')}`])),
          ...Object.entries(levels.branchA).map(([ref, a]) => `${ref} ${told(a, 'A')}`),
        ].join(', ')}.`
  return `${t.title}, supply of ${told(p.supplyV, 'V')} ${sign}. ${[...values, ...places].join('; ')}. ${where}`
}

const shortNumber = (x: number): string => String(Number(x.toFixed(1)))
