import { describe, expect, test } from 'vitest'
import { readTester, testerExample } from '#core/tester'
import {
  cautionsFor,
  checkCells,
  checkGainDial,
  checkStandardExampleCsv,
  compareExampleCsv,
  compareTesters,
  dialTransistors,
  type GainBridge,
  gaugeExampleCsv,
  gaugeStudy,
  interchange,
  protection,
  readCheckStandards,
  readGaugeStudy,
  readPairedTable,
  steadiness,
} from '#core/upkeep'
import { coursePlot, pictureFile } from '#report/plot'
import { outsideReach, pageFaults } from '#report/testing'
import {
  cellsSheet,
  comparisonSheet,
  dialSheet,
  gaugeSheet,
  protectionSheet,
  type Sheet,
  sheetHtml,
  steadinessSheet,
} from './index.ts'

const table = readPairedTable(compareExampleCsv, 'example.csv')
const comparison = compareTesters(['A <one>', 'B & co'], table.unit, table.parts)

const study = readGaugeStudy(gaugeExampleCsv, 'example.csv')

const bridge: GainBridge = { kind: 'ratio', dial: 'base', fixedOhm: 1000, emfV: 4.5, baseEmitterV: 0.2 }
const dial = checkGainDial({
  bridge,
  tolerance: 0.01,
  law: { kind: 'linear', nominalOhm: 1e5, ohm: 1e5, endOhm: 300, linearity: 0.01 },
  marks: [10, 100],
  detectorOhm: 1100,
  divisionA: 2e-6,
  readable: 0.5,
  leakageA: 1e-5,
  transistor: dialTransistors.Ge,
  ambientC: 25,
})
const cells = checkCells({
  kind: 'alkaline',
  count: 3,
  rest: { value: 4.5 },
  restA: 0,
  loaded: { value: 4.2 },
  load: { ampere: 0.5 },
  sag: 0.1,
  currentsA: [1],
})
const described = readTester(testerExample)
if (!described.ok) throw new Error('the example is no good description')
const asked = { range: '10 mA', overload: { kind: 'full-scale', times: 10 }, mostError: 0.005, bears: 10 } as const
const diodes = protection({
  ...asked,
  movement: described.tester.movement!,
  range: described.tester.ranges.find((r) => r.id === '10 mA')!,
  temperaturesC: [25],
})

const sheets: Readonly<Record<string, Sheet>> = {
  comparison: comparisonSheet(comparison, interchange(comparison, { within: 2e-6 }), table.notes),
  study: gaugeSheet(study, gaugeStudy(study)),
  'gain dial': dialSheet(dial, bridge, 1e-5),
  'set of cells': cellsSheet(cells, cautionsFor({ cells: true })),
  protection: protectionSheet(asked, diodes, []),
  'check standard': steadinessSheet(
    'Bench',
    readCheckStandards(checkStandardExampleCsv, 'x.csv').map((s) => steadiness(s, { weight: 0.2 }, { high: 130 })),
    { high: 130 },
  ),
}

describe.each(Object.entries(sheets))('the page of a %s', (_, sheet) => {
  const page = sheetHtml(sheet)

  test('is whole, asks nothing of any address, and runs nothing', () => {
    expect(pageFaults(page)).toEqual([])
    expect(outsideReach(page.replaceAll('http-equiv="Content-Security-Policy"', ''))).toEqual([])
  })

  test('says what matters first, has its tables and its drawing', () => {
    expect(page.indexOf('class="lead"')).toBeLessThan(page.indexOf('<table'))
    expect(page.match(/<table/g) ?? []).toHaveLength(sheet.blocks.filter((b) => b.kind === 'table').length)
    expect(page.match(/class="plot wide"/g) ?? []).toHaveLength(sheet.blocks.filter((b) => b.kind === 'plot').length)
  })
})

test('names are escaped', () => {
  expect(sheetHtml(sheets.comparison!)).toContain('A &lt;one&gt;')
  expect(sheetHtml(sheets.comparison!)).not.toContain('<one>')
})

test('a drawing as a file of its own brings its style and its name space', () => {
  const plot = sheets.comparison!.blocks.find((b) => b.kind === 'plot')!
  const file = pictureFile(coursePlot(plot.plot))
  expect(file).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" class="plot"[^>]*><title>.*<style>\.plot\{/)
  expect(file).not.toContain('var(')
  expect(file).not.toContain('url(')
})
