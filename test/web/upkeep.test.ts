import { writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect, test } from 'vitest'
import { apiClient } from '#api'
import { calibrationExampleCsv, compareExampleCsv, gaugeExampleCsv } from '#core/upkeep'
import {
  command,
  describePage,
  focused,
  overflow,
  smallTargets,
  soon,
  telephone,
  textOf,
  violations,
} from './harness.ts'

/** Readings of the range of 10 mA that stand with the examples: reference in mA, shown in divisions, up or down. */
const readings = calibrationExampleCsv
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','))
  .filter(([range]) => range === '10 mA')

/** Types them by keys alone: Enter goes on. */
async function typeReadings(page: Page): Promise<void> {
  await page.getByLabel('Range').selectOption({ value: '10 mA' })
  await page.getByLabel('Reference 1', { exact: true }).focus()
  for (const [i, [, reference, shown, way]] of readings.entries()) {
    await page.keyboard.type(reference!)
    await page.keyboard.press('Enter')
    await page.keyboard.type(shown!)
    await page.getByLabel(`Way ${i + 1}`, { exact: true }).selectOption({ value: way! })
    await page.getByLabel(`Shown ${i + 1}`, { exact: true }).focus()
    await page.keyboard.press('Enter')
  }
}

describePage('the upkeep of a tester', true, (bench) => {
  test('a calibration by keys: lines, certificate and plot; kept with the tester, and undone', async () => {
    const page = await bench.open('/testers/larkfield')
    await page.getByRole('link', { name: 'Upkeep' }).focus()
    await page.keyboard.press('Enter')
    await page.getByText('never calibrated on all its ranges').waitFor()
    await page.getByRole('link', { name: 'Calibration' }).focus()
    await page.keyboard.press('Enter')
    await page.getByText('Type three readings or more').waitFor()
    await typeReadings(page)
    expect(await focused(page)).toBe(`Reference ${readings.length + 1}`)
    // as the command line has it for these readings
    await page.getByText(/^The shunt of 10\smA acts as/).waitFor()
    expect(await page.locator('.upkeep-plot .band').count()).toBe(1)
    expect(await page.locator('.upkeep-line').nth(1).textContent()).toMatch(/[−\d]/)
    await page.reload()
    await page.getByText(/^The shunt of 10\smA acts as/).waitFor()

    await page.getByLabel('Day').fill('2026-05-12')
    await page.getByRole('button', { name: 'Keep it with the tester' }).click()
    await page.getByText('The calibration of 2026-05-12 is kept, as version 2.').first().waitFor()
    await page.getByRole('button', { name: '2026-05-12' }).click()
    await page.getByText(/^The shunt of 10\smA acts as/).waitFor()
    const kept = await apiClient(bench.served.url).tester('larkfield')
    expect(kept.tester.calibrations).toMatchObject([{ date: '2026-05-12', due: '2027-05-12' }])
    await page.getByRole('button', { name: 'Undo' }).click()
    await soon(() => page.getByRole('button', { name: '2026-05-12' }).count()).toBe(0)
  }, 90_000)

  test('a span of the gain dial is calibrated beside the ranges', async () => {
    const page = await bench.open('/testers/larkfield/upkeep/calibration')
    await page.getByLabel('Range').selectOption({ value: 'h_FE span low' })
    await page.getByRole('button', { name: 'Lay out five points, up and down' }).click()
    expect(await page.getByLabel('Reference 1', { exact: true }).inputValue()).toBe('14')
    await page.getByText('Turned from').waitFor()
    for (let i = 1; i <= 10; i++) {
      const reference = await page.getByLabel(`Reference ${i}`, { exact: true }).inputValue()
      await page.getByLabel(`Shown ${i}`, { exact: true }).fill(String(Number(reference) * 0.9))
    }
    await page
      .getByText(/span low: with corrections/)
      .first()
      .waitFor()
    await page.getByText(/reads 11\s% low; the description names nothing to trim/).waitFor()
    await page.getByLabel('Day').fill('2026-05-12')
    await page.getByRole('button', { name: 'Keep it with the tester' }).click()
    await page.getByText('The calibration of 2026-05-12 is kept').first().waitFor()
    const kept = await apiClient(bench.served.url).tester('larkfield')
    expect(kept.tester.calibrations).toMatchObject([{ ranges: [{ range: 'low', unit: '1', from: 12.6 }] }])
    await page.getByRole('button', { name: 'Undo' }).click()
    await soon(() => page.getByRole('button', { name: '2026-05-12' }).count()).toBe(0)
  }, 90_000)

  test('what cannot be read stands beside its field, and too few readings are told', async () => {
    const page = await bench.open('/testers/larkfield/upkeep/calibration')
    await page.getByRole('button', { name: 'Lay out five points, up and down' }).click()
    expect(await page.getByLabel('Reference 10', { exact: true }).inputValue()).toBe('20 µA')
    await page.getByLabel('Shown 1', { exact: true }).fill('much')
    await soon(() => textOf(page.locator('.upkeep-line').nth(1))).toContain('“much”')
    expect(await page.getByLabel('Shown 1', { exact: true }).getAttribute('aria-invalid')).toBe('true')
    await page.getByLabel('Shown 1', { exact: true }).fill('10.2')
    await page.getByText('has too few readings').waitFor()
  }, 60_000)

  test('what was found is kept, counts in the health, in the list and in finding trouble, and can be taken away', async () => {
    const page = await bench.open('/testers/larkfield?found=1')
    await page.getByLabel('Measured of shunt 10 mA', { exact: true }).fill('12.1 ohm')
    await page.getByLabel('Accuracy of shunt 10 mA', { exact: true }).fill('0.3 %')
    await page.getByLabel('Measured on').fill('2026-06-01')
    await page.getByRole('button', { name: 'Keep in the book' }).click()
    await page.getByText('What was found on 2026-06-01 is kept.').first().waitFor()
    await page.getByRole('button', { name: 'Empty the sheet' }).click()
    await page.getByRole('button', { name: 'Take what is kept into the sheet' }).click()
    await soon(() => page.getByLabel('Measured of shunt 10 mA', { exact: true }).inputValue()).toBe('12.1 ohm')

    const other = await bench.open('/testers/larkfield/upkeep', { beside: page })
    await other.getByText(/^As found on 2026-06-01 its parts make it read 8\.8\s% high at full scale/).waitFor()
    const begin = await bench.open('/run?tester=larkfield', { beside: page })
    await begin.getByText(/never calibrated on .*; not for 10 mA\./).waitFor()
    expect(await violations(begin)).toEqual([])
    const list = await bench.open('/testers', { beside: page })
    await list.getByText('not trusted').waitFor()
    const trouble = await bench.open('/testers/larkfield?trouble=1', { beside: page })
    await trouble.getByLabel('Seen at 10 mA', { exact: true }).selectOption('pegged')
    await trouble.getByRole('button', { name: 'All other ranges are right' }).click()
    const first = trouble.locator('.suspects > li').first()
    await soon(() => textOf(first)).toMatch(/contact in the shunt of 10\smA does not make/)
    await trouble.getByLabel(/count what the book keeps/).uncheck()
    await trouble.getByText('The first 2 are a tie').waitFor()

    await other.getByRole('button', { name: /^Take away/ }).click()
    await other.getByText('never calibrated on all its ranges').waitFor()
    await soon(() => list.getByText('not trusted').count()).toBe(0)
  }, 90_000)

  test('a check standard has its chart and raises its alarm', async () => {
    // read on four days by the command line, beside the page
    for (const [i, shown] of ['12 div', '12.2 div', '11.9 div', '12.1 div'].entries()) {
      const file = join(dirname(bench.served.book), `cs${i}.csv`)
      const at = `2026-0${i + 1}-01T10:00:00Z`
      writeFileSync(file, `part,type,reads,shown,range,at\nCS-9,unknown,I_CEO,${shown},100 uA,${at}\n`)
      await command('judge', file, '--tester', 'larkfield', '--keep', '--book', bench.served.book)
    }
    const page = await bench.open('/testers/larkfield/upkeep/standards', { expected: [/400/] })
    await page.getByText('Put a few stable parts aside').waitFor()
    await page.getByLabel('Part, by its tag').fill('CS-9')
    await page.getByLabel('What is followed').selectOption('I_CEO')
    await page.getByLabel('Not below').fill('20 uA')
    await page.getByLabel('Not above').fill('10 uA')
    await page.getByRole('button', { name: 'Name it' }).click()
    await page.getByText('is not below the upper bound of').waitFor()
    await page.getByLabel('Not below').fill('')
    await page.getByLabel('Not above').fill('20 uA')
    await page.getByLabel('Part, by its tag').press('Enter')
    await page.getByText('CS-9: the tester is out of control.').first().waitFor()
    expect(await page.locator('.upkeep-plot .limit').count()).toBe(2)
    await page.getByRole('link', { name: 'Health' }).click()
    await page
      .getByText(/A check standard is out of control\./)
      .first()
      .waitFor()
    await page.getByRole('link', { name: 'Check standards' }).click()
    await page.getByRole('button', { name: 'Name CS-9 no longer' }).click()
    await page.getByText('Put a few stable parts aside').waitFor()
    await page.getByRole('button', { name: 'Undo' }).click()
    await page.getByRole('button', { name: 'Name CS-9 no longer' }).waitFor()
  }, 120_000)

  test('two testers by a pasted table: limits of agreement, and whether they are interchangeable', async () => {
    const page = await bench.open('/testers/larkfield/upkeep/agreement')
    await page.getByLabel('Parts read on both').fill(compareExampleCsv)
    await page.getByText(/^A single reading on Larkfield/).waitFor()
    expect(await page.locator('.upkeep-plot .limit').count()).toBe(2)
    await page.getByLabel('A difference does no harm within').fill('3 uA')
    await page.getByText('they are interchangeable').waitFor()
    await page.getByLabel('A difference does no harm within').fill('0.1 uA')
    await page.getByText('they are not interchangeable').waitFor()
    await page.getByLabel('A difference does no harm within').fill('3 V')
    await page.getByText('“3 V”').waitFor()
  }, 60_000)

  test('several hands, gain dial, protection and cells say what the command line says', async () => {
    const page = await bench.open('/testers/larkfield/upkeep/hands')
    await page.getByLabel('Every part by every hand, equally often').fill(gaugeExampleCsv)
    await page.getByText('The measurement is good.').waitFor()
    await page.getByLabel('Worked out by').selectOption('averages and ranges')
    await soon(() => page.getByText('Analysis of variance', { exact: true }).count()).toBe(0)

    await page.getByRole('link', { name: 'Gain dial' }).click()
    await page.getByLabel('The other resistor, as found').fill('1 kohm')
    await page.getByLabel('The pot, end to end').fill('100 kohm')
    await page.getByLabel('Left at its stop').fill('300 ohm')
    // docs/how-to/gain-dial.md holds the same
    const lead = page.locator('.upkeep-lead')
    await soon(() => textOf(lead)).toMatch(/^At its worst the dial shows 2\.91\s% low, at 10\./)

    await page.getByRole('link', { name: 'Protection' }).click()
    await page.getByLabel('On range').selectOption('10 mA')
    await soon(() => textOf(lead)).toMatch(/Across the movement on 10\smA, against 10 times full scale: /)
    await page.getByLabel('It may get').selectOption('a voltage at its terminals')
    await page.getByLabel('A voltage of').fill('250 V')
    await page
      .getByText(/IEC 61010-1/)
      .first()
      .waitFor()

    await page.getByRole('link', { name: 'Cells' }).click()
    await page.getByLabel('Cells in series').fill('6')
    await page.getByLabel('At rest').fill('9.1 V')
    await page.getByLabel('Under a load').fill('8.3 V')
    await page.getByLabel('The load, as a current').fill('300 mA')
    await page.getByText('The set is good.').waitFor()
    expect(await lead.textContent()).toMatch(/It carries 340\smA before it sags, 1\.4\sA before its end\.$/)
  }, 90_000)

  for (const look of ['light', 'dark'] as const)
    test(`breaks no rule of access, ${look}, nor at 390 px`, async () => {
      const page = await bench.open('/testers/larkfield/upkeep/calibration', { look })
      await typeReadings(page)
      for (const part of [
        'Health',
        'Calibration',
        'Check standards',
        'Two testers',
        'Several hands',
        'Gain dial',
        'Protection',
        'Cells',
      ]) {
        await page.setViewportSize({ width: 1280, height: 900 })
        await page.getByRole('link', { name: part, exact: true }).click()
        await page.getByRole('heading', { level: 1, name: part }).waitFor()
        const example = page.getByRole('button', { name: 'Take the example' })
        if ((await example.count()) > 0) await example.click()
        expect(await violations(page), part).toEqual([])
        await page.setViewportSize(telephone)
        expect(await overflow(page), part).toBe(0)
        expect(await violations(page), part).toEqual([])
        expect(await smallTargets(page), part).toEqual([])
      }
    }, 120_000)
})
