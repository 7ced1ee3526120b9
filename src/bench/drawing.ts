import { createRequire } from 'node:module'
import type { ResvgRenderOptions } from '@resvg/resvg-js'
import { FaultError } from '#core/fault'
import { type PictureLook, pictureFile, pictureFont } from '#report/plot'

/** The cuts of the typeface that drawings use, in the package they come with. */
const cuts = [
  '400Regular/Inter_400Regular',
  '400Regular_Italic/Inter_400Regular_Italic',
  '600SemiBold/Inter_600SemiBold',
]

/** Pixels of a picture for each of its drawing. */
const density = 2

const resolve = createRequire(import.meta.url).resolve

/** Files of the typeface: a picture looks the same on every machine, whatever type is installed there. */
const fontFiles = (): string[] => cuts.map((cut) => resolve(`@expo-google-fonts/inter/${cut}.ttf`))

/**
 * A drawing as the bytes of a file, SVG or PNG as its name ends. The program that draws PNG is loaded when it is needed.
 *
 * @param svg as a plot draws it
 * @param file its name ends in .svg or .png
 * @throws {FaultError} `file` for any other name
 */
export async function drawingBytes(svg: string, file: string, look: PictureLook = 'screen'): Promise<Uint8Array> {
  switch (drawingKind(file)) {
    case 'svg':
      return Buffer.from(pictureFile(svg, look))
    case 'png':
      return pngOf(pictureFile(svg, look === 'screen' ? 'light' : look))
  }
}

/** What the name of a file says it is to be. @throws {FaultError} `file` where it says neither */
export function drawingKind(file: string): 'svg' | 'png' {
  if (/\.svg$/i.test(file)) return 'svg'
  if (/\.png$/i.test(file)) return 'png'
  throw new FaultError({
    code: 'file',
    file,
    problem: 'is no name of a picture',
    mend: 'Let it end in .svg or .png.',
  })
}

async function pngOf(svg: string): Promise<Uint8Array> {
  const { Resvg } = await import('@resvg/resvg-js')
  const options: ResvgRenderOptions = {
    fitTo: { mode: 'zoom', value: density },
    font: { fontFiles: fontFiles(), loadSystemFonts: false, defaultFontFamily: pictureFont },
  }
  return new Resvg(svg, options).render().asPng()
}
