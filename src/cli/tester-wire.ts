import type { Command } from 'commander'
import { printPlain, type Unit } from '#core/quantity'
import { type AlloyName, alloys, cautionsFor, gaugeDiameterM, type WireShunt, wireShunt } from '#core/upkeep'
import { badOption, choiceOption, clashFault, deviceTemperature, positiveOption, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { cautionLines, percent } from './say.ts'
import { wrapped } from './table.ts'

interface WireOptions {
  readonly current: string
  readonly alloy?: string
  readonly gauge?: string
  readonly diameter?: string
  readonly joint?: string
  readonly ambient?: string
  readonly json?: boolean
}

const alloyNames = Object.keys(alloys) as readonly AlloyName[]

/** Joints of a shunt: soldered, or screwed and clean (common practice), ohm; temperatures, degC. */
const wireDefaults = { alloy: 'manganin', awg: 20, jointOhm: 0.002, ambientC: 20, spanC: [10, 40] } as const

export function defineWire(group: Command): void {
  withJson(group.command('wire').description('Make a shunt of wire: length, warmth, drift, connections.'))
    .argument('<ohm>', 'resistance wanted: "0.101 ohm"')
    .requiredOption('--current <current>', 'current at full scale: "1 A"')
    .option('--alloy <alloy>', `${alloyNames.join(', ')} (default: ${wireDefaults.alloy})`)
    .option('--gauge <awg>', `American wire gauge, 0000 to 40 (default: ${wireDefaults.awg})`)
    .option('--diameter <length>', 'diameter of the bare wire, in place of a gauge: "0.8 mm"')
    .option('--joint <ohm>', 'resistance of each joint at its ends (default: 2 milliohm)')
    .option('--ambient <temperature>', `temperature at the bench (default: ${wireDefaults.ambientC} °C)`)
    .action((text: string, o: WireOptions) => {
      const ohm = positiveOption('ohm', text, 'ohm')
      const currentA = positiveOption('--current', o.current, 'A')
      const alloy = choiceOption('--alloy', o.alloy ?? wireDefaults.alloy, alloyNames)
      const diameterM = diameterOf(o)
      const shunt = wireShunt({
        ohm,
        alloy: alloys[alloy],
        diameterM,
        currentA,
        ambientC: o.ambient === undefined ? wireDefaults.ambientC : deviceTemperature('--ambient', o.ambient, 'bench'),
        temperaturesC: wireDefaults.spanC,
        jointOhm: o.joint === undefined ? wireDefaults.jointOhm : positiveOption('--joint', o.joint, 'ohm'),
      })
      const cautions = cautionsFor({ currentA, powerW: shunt.powerW })
      const asked = { ohm, currentA, alloy, diameterM }
      if (o.json === true) printJson({ format: 'germane/wire-shunt/1', ...asked, ...shunt, cautions })
      else printLines([...wireLines(asked, shunt), ...cautionLines(cautions)])
    })
}

function diameterOf(o: WireOptions): number {
  if (o.gauge !== undefined && o.diameter !== undefined) throw clashFault('--gauge', '--diameter')
  if (o.diameter !== undefined) return positiveOption('--diameter', o.diameter, 'm')
  const text = (o.gauge ?? String(wireDefaults.awg)).replace(/\s*awg$/i, '').trim()
  const isZeros = /^0+$/.test(text)
  const awg = isZeros ? 1 - text.length : Number(text)
  if (Number.isInteger(awg) && text !== '' && awg >= -3 && awg <= 40) return gaugeDiameterM(awg)
  throw badOption('--gauge', o.gauge ?? '', 'is no American wire gauge', 'Give a whole number from 0000 to 40.')
}

const value = (x: number, unit: Unit): string => printPlain(x, unit, { digits: 3 })

function wireLines(
  asked: Readonly<{ ohm: number; currentA: number; alloy: string; diameterM: number }>,
  s: WireShunt,
): readonly string[] {
  const [short, long] = s.lengthM
  const length = long > short * 1.001 ? `${value(short, 'm')} to ${value(long, 'm')}` : value(long, 'm')
  const rise = s.wireC === undefined ? 'it would glow' : `the bare wire comes to ${value(s.wireC, 'degC')}`
  const byHeat =
    s.byHeat === undefined ? '' : `; its own heat moves it by ${percent(s.byHeat[0])} to ${percent(s.byHeat[1])}`
  return [
    `${printPlain(asked.ohm, 'ohm', { digits: 5 })} for ${value(asked.currentA, 'A')}: ${length} of ${asked.alloy}, ${value(asked.diameterM, 'm')} thick`,
    ...wrapped(
      `At full scale ${value(s.powerW, 'W')}, ${value(s.densityAPerMm2, '1')} A/mm2: ${rise} in still air${byHeat}.`,
    ),
    `From 10 to 40 °C it changes by up to ${percent(s.byAmbient)}.`,
    ...(s.advice.length > 0 ? [''] : []),
    ...s.advice.flatMap((a) => wrapped(a, '- ')),
  ]
}
