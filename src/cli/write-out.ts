import { closeSync, openSync, readSync, writeFileSync } from 'node:fs'
import { FaultError } from '#core/fault'

/** First bytes of every book. */
const bookMark = 'SQLite format 3'

function isBook(file: string): boolean {
  try {
    const handle = openSync(file, 'r')
    const head = Buffer.alloc(bookMark.length)
    readSync(handle, head)
    closeSync(handle)
    return head.toString('latin1') === bookMark
  } catch {
    return false
  }
}

/** @throws {FaultError} `file` where a name asks for a form in which no page is written */
export function refuseNoPage(file: string): void {
  const [, form] = /\.(pdf|docx?|odt|xlsx?|csv|txt|jpe?g)$/i.exec(file) ?? []
  if (form === undefined) return
  const mend =
    form.toLowerCase() === 'pdf'
      ? 'Let the name end in .html, and print the page from a browser to have a PDF.'
      : 'Let the name end in .html.'
  throw new FaultError({ code: 'file', file, problem: `a page is written as HTML, not as ${form.toUpperCase()}`, mend })
}

/** Writes a file a person asked for; never over a book. @throws {FaultError} `file` where it cannot be written */
export function writeOut(file: string, content: string | Uint8Array): void {
  if (file === '-')
    throw new FaultError({
      code: 'usage',
      problem: '"-" is no file to write to, since standard output carries the result',
      mend: 'Name a file; write ./- where it is truly to be called so.',
    })
  if (isBook(file))
    throw new FaultError({ code: 'file', file, problem: 'is a book and is left as it is', mend: 'Name another file.' })
  try {
    writeFileSync(file, content)
  } catch (error) {
    throw new FaultError({
      code: 'file',
      file,
      problem: `cannot be written (${(error as NodeJS.ErrnoException).code ?? String(error)})`,
      mend: 'Check the folder and your right to write there.',
    })
  }
}
