import { coursePlot, pictureFile } from '#report/plot'
import { type Sheet, sheetHtml } from '#report/sheet'

export type { Sheet } from '#report/sheet'

/**
 * A sheet as a file: its drawings alone where the name ends in .svg, else the whole page.
 *
 * @param file name the person asked for
 */
export function sheetFile(sheet: Sheet, file: string): string {
  if (!/\.svg$/i.test(file)) return sheetHtml(sheet)
  const first = sheet.blocks.find((b) => b.kind === 'plot')
  return first === undefined ? sheetHtml(sheet) : pictureFile(coursePlot(first.plot))
}
