import { describe, expect, test } from 'vitest'
import {
  checkStandardExampleCsv,
  compareExampleCsv,
  compareTesters,
  gaugeExampleCsv,
  gaugeStudy,
  interchange,
  readCheckStandards,
  readGaugeStudy,
  readPairedTable,
  steadiness,
} from '#core/upkeep'
import { coursePlot, pictureFile } from '#report/plot'
import { outsideReach, pageFaults } from '#report/testing'
import { comparisonSheet, gaugeSheet, type Sheet, sheetHtml, steadinessSheet } from './index.ts'

const table = readPairedTable(compareExampleCsv, 'example.csv')
const comparison = compareTesters(['A <one>', 'B & co'], table.unit, table.parts)

const study = readGaugeStudy(gaugeExampleCsv, 'example.csv')

const sheets: Readonly<Record<string, Sheet>> = {
  comparison: comparisonSheet(comparison, interchange(comparison, { within: 2e-6 }), table.notes),
  study: gaugeSheet(study, gaugeStudy(study)),
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
    expect(page.match(/<table/g)).toHaveLength(sheet.blocks.filter((b) => b.kind === 'table').length)
    expect(page.match(/class="plot wide"/g)).toHaveLength(sheet.blocks.filter((b) => b.kind === 'plot').length)
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
