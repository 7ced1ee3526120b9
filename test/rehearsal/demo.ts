import { type DemoPart, demo, demoParts, loadCatalog, sampleTester } from '#catalog'
import { needType } from '#core/device'
import { firstPoint, rehearse } from '#core/rehearsal'
import { planSheet } from '#core/sheet'
import type { Reading } from '#core/tester'
import { writeCsv } from '#core/text'

const tester = sampleTester(demo.tester)!
const types = await loadCatalog()

/** What was read of a part of the demo. */
export function demoReadings({ tag, type, device, reads }: DemoPart): readonly Reading[] {
  const sheet = firstPoint(planSheet(tester, needType(types, type).partType), reads)
  const { seed, ambientC } = demoParts
  if (device !== undefined) return rehearse(sheet, { part: tag, device }, { seed, ambientC }).readings
  const stand = demoParts.parts.find((p) => p.type === type && p.device !== undefined)!
  const [check] = rehearse(sheet, { part: tag, device: stand.device! }, { seed, ambientC }).readings
  return [{ ...check!, shown: { kind: 'state', state: 'short' }, seen: 'short' }]
}

const clock = (minute: number): string => {
  const all = 14 * 60 + 30 + minute
  return `2026-03-14T${Math.floor(all / 60)}:${String(all % 60).padStart(2, '0')}`
}

const columns = ['part', 'type', 'reads', 'shown', 'range', 'point', 'supply', 'ambient', 'at', 'note'] as const

function rowsOf(part: DemoPart): readonly (readonly string[])[] {
  let minute = part.minute
  return demoReadings(part).map((r, i) => {
    // the dial is read in the minute in which the collector current was
    if (i > 0 && r.reads !== 'h_FE') minute++
    const supply = r.supplyV === undefined ? '' : `${r.supplyV} V`
    const note = part.notes?.[r.reads] ?? ''
    return [r.part, r.type ?? '', r.reads, r.seen, r.range ?? '', '1', supply, `${r.ambientC} C`, clock(minute), note]
  })
}

/** The file of the demo, made from its parts. */
export const demoFile = (): string =>
  `# Orrin Point tide recorder: germanium amplifier transistors, silicon regulators, two diodes. Larkfield bench tester.\n${writeCsv(columns, demoParts.parts.flatMap(rowsOf))}`
