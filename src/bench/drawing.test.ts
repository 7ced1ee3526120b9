import { inflateSync } from 'node:zlib'
import { describe, expect, test } from 'vitest'
import { sweepsFor } from '#core/curve'
import { FaultError } from '#core/fault'
import { curveExampleCsv, curvesOf } from '#core/fit'
import { curvePlot } from '#report/curve'
import { linePlot } from '#report/plot'
import { drawingBytes } from './drawing.ts'
import { pictureType } from './picture.ts'

const curve = curvesOf(curveExampleCsv.diode, 'diode', { file: 'D1.csv' })[0]!
const svg = linePlot(curvePlot([{ name: 'D1', sweeps: sweepsFor(curve, 'log') }], 'log'), { width: 480 })

/** Size of a PNG (W3C PNG, 11.2.1) and how many bytes its rows hold before they are packed. */
function png(bytes: Uint8Array): { width: number; height: number; raw: Buffer } {
  const view = Buffer.from(bytes)
  const packed: Buffer[] = []
  for (let at = 8; at < view.length; ) {
    const length = view.readUInt32BE(at)
    if (view.toString('latin1', at + 4, at + 8) === 'IDAT') packed.push(view.subarray(at + 8, at + 8 + length))
    at += length + 12
  }
  return { width: view.readUInt32BE(16), height: view.readUInt32BE(20), raw: inflateSync(Buffer.concat(packed)) }
}

describe('a drawing as a picture', () => {
  test('is a PNG of twice its size', async () => {
    const bytes = await drawingBytes(svg, 'D1.png')
    expect(pictureType(bytes)).toBe('image/png')
    const { width } = png(bytes)
    expect(width).toBe(2 * (480 + 28))
  })

  test('has its text, whatever type is installed: each letter changes it', async () => {
    const bare = svg.replaceAll(/<text[^>]*>.*?<\/text>/g, '')
    const [withText, without] = [png(await drawingBytes(svg, 'a.png')), png(await drawingBytes(bare, 'a.png'))]
    const changed = withText.raw.reduce((n, b, i) => n + (b === without.raw[i] ? 0 : 1), 0)
    expect(changed).toBeGreaterThan(5000)
    const other = png(await drawingBytes(svg.replace('Forward', 'Gorward'), 'a.png'))
    expect(other.raw.equals(withText.raw)).toBe(false)
  })

  test('is dark where that is asked', async () => {
    const [light, dark] = [await drawingBytes(svg, 'a.png'), await drawingBytes(svg, 'a.png', 'dark')]
    expect(Buffer.from(light).equals(Buffer.from(dark))).toBe(false)
  })

  test('as SVG it is text', async () =>
    expect(Buffer.from(await drawingBytes(svg, 'D1.SVG')).toString()).toMatch(/^<svg xmlns=.*<\/svg>\n$/s))

  test.each(['D1.jpg', 'D1', 'svg'])('%s is refused', async (file) => {
    const wrong = drawingBytes(svg, file)
    await expect(wrong).rejects.toThrow(FaultError)
    await expect(wrong).rejects.toThrow(`${file}: is no name of a picture. Let it end in .svg or .png.`)
  })
})
