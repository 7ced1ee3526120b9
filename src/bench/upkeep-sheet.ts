import { FaultError } from '#core/fault'
import { coursePlot } from '#report/plot'
import { type Sheet, sheetHtml } from '#report/sheet'
import { drawingBytes } from './drawing.ts'

export { cellsSheet, dialSheet, protectionSheet, type Sheet } from '#report/sheet'

/**
 * A sheet as a file: its first drawing alone where the name ends in .svg or .png, else the whole page.
 *
 * @param file name the person asked for
 * @throws {FaultError} `file` for a picture of a sheet that has no drawing
 */
export async function sheetFile(sheet: Sheet, file: string): Promise<string | Uint8Array> {
  if (!/\.(svg|png)$/i.test(file)) return sheetHtml(sheet)
  const [first] = sheet.blocks.flatMap((b) =>
    b.kind === 'plot' ? [coursePlot(b.plot)] : b.kind === 'drawing' ? [b.svg] : [],
  )
  if (first !== undefined) return drawingBytes(first, file)
  throw new FaultError({
    code: 'file',
    file,
    problem: 'asks for a drawing, and this sheet has none',
    mend: 'Let the name end in .html.',
  })
}
