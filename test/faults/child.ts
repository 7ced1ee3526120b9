import { readdirSync, readFileSync, statfsSync, writeFileSync, writeSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Sqlite from 'better-sqlite3'
import {
  addReading,
  type Book,
  backupBook,
  checkBook,
  closeBook,
  correctReading,
  createBook,
  importReadings,
  openBook,
  readings,
  saveTester,
  startRun,
} from '#book'
import { FaultError } from '#core/fault'
import { atMinute, handTester } from '../book/invented.ts'
import { importOf, readingOf } from './told.ts'

/**
 * A process of its own that works on a book and says on its standard output what it was told is kept. The tests bundle
 * it, start it, and kill it.
 */
const say = (line: string): number => writeSync(1, `${line}\n`)

/** Adds readings until it is killed, every fifth a correction; says the number of each one that is kept. */
async function takeReadings(file: string, life: string): Promise<void> {
  const book = await openBook(file)
  say('ready')
  let last = 0
  for (let n = 1; ; n++) {
    const reading = readingOf(Number(life), n)
    const at = atMinute(n)
    const added =
      n % 5 === 0
        ? await correctReading(book, { replaces: last, reading }, at)
        : await addReading(book, { run: 1, reading }, at)
    last = added.id
    say(`${added.id} ${n}`)
  }
}

/** Imports one file. */
async function takeImport(file: string, rows: string): Promise<void> {
  const book = await openBook(file)
  const given = importOf(Number(rows))
  say('ready')
  await importReadings(book, given, atMinute(1))
  say('kept')
  await closeBook(book)
}

/** Makes books one after the other until it is killed. */
async function makeBooks(file: string): Promise<void> {
  say('ready')
  for (let n = 1; ; n++) {
    const book = await createBook(`${file}-${n}.germane`, atMinute(n))
    say(String(n))
    await closeBook(book)
  }
}

/** Adds a number of readings to a run, one by one, while others do the same. */
async function write(file: string, life: string, count: string): Promise<void> {
  const book = await openBook(file)
  say('ready')
  for (let n = 1; n <= Number(count); n++)
    say(String((await addReading(book, { run: 1, reading: readingOf(Number(life), n) }, atMinute(n))).id))
  await closeBook(book)
  say('done')
}

/** Opens a book, making it where it is not there; starts a run in it. */
async function openOrMake(file: string): Promise<void> {
  const book = await openBook(file, { createAt: atMinute(0) })
  await saveTester(book, { tester: handTester }, atMinute(0))
  const { id } = await startRun(book, { tester: handTester.id }, atMinute(1))
  await closeBook(book)
  say(`run ${id}`)
}

/** Keeps the right to write until its input ends. */
async function hold(file: string): Promise<void> {
  const book = await openBook(file)
  book.driver.exec('BEGIN IMMEDIATE')
  say('holding')
  readFileSync(0)
  book.driver.exec('ROLLBACK')
  await closeBook(book)
}

/** Tries something as a user without rights, where this one may do everything. */
async function tryPlainly(what: string, file: string, to = ''): Promise<void> {
  new Sqlite(':memory:').close() // the driver is read before the rights are given away
  if (process.getuid?.() === 0) {
    process.setgid?.(65_534)
    process.setuid?.(65_534)
  }
  const tries: Record<string, () => Promise<Book | unknown>> = {
    open: () => openBook(file),
    create: () => createBook(file, atMinute(0)),
    backup: async () => backupBook(await openBook(file), to),
  }
  await tries[what]?.()
  say('done')
}

/** Uses a folder on a file system that is nearly full, until nothing fits any more; then makes room and looks. */
async function fillUp(folder: string): Promise<void> {
  const filler = join(folder, 'filler')
  const book = await createBook(join(folder, 'book.germane'), atMinute(0))
  await saveTester(book, { tester: handTester }, atMinute(0))
  await startRun(book, { tester: handTester.id }, atMinute(1))
  leaveRoom(filler, 409_600)
  let kept = 0
  const fault = (error: unknown): number => say(`fault ${error instanceof FaultError ? error.message : String(error)}`)
  await importReadings(book, importOf(5000), atMinute(2)).catch(fault)
  await createBook(join(folder, 'new.germane'), atMinute(2)).catch(fault)
  await backupBook(book, join(folder, 'copy.germane')).catch(fault)
  const addForEver = async (): Promise<void> => {
    for (; ; kept++) await addReading(book, { run: 1, reading: readingOf(1, kept) }, atMinute(3))
  }
  await addForEver().catch(fault)
  await closeBook(book)
  writeFileSync(filler, '')
  const again = await openBook(book.file)
  const there = (await readings(again)).length
  const { findings } = await checkBook(again)
  await closeBook(again)
  say(JSON.stringify({ acknowledged: kept, there, findings, files: readdirSync(folder).sort() }))
}

/** Takes all the room there is but so many bytes. */
function leaveRoom(filler: string, bytes: number): void {
  const { bavail, bsize } = statfsSync(dirname(filler))
  writeFileSync(filler, Buffer.alloc(bavail * bsize - bytes))
}

const [verb = '', ...rest] = process.argv.slice(2)
const verbs: Readonly<Record<string, (...given: string[]) => Promise<void>>> = {
  readings: takeReadings as (...given: string[]) => Promise<void>,
  import: takeImport as (...given: string[]) => Promise<void>,
  make: makeBooks as (...given: string[]) => Promise<void>,
  write: write as (...given: string[]) => Promise<void>,
  open: openOrMake as (...given: string[]) => Promise<void>,
  hold: hold as (...given: string[]) => Promise<void>,
  fill: fillUp as (...given: string[]) => Promise<void>,
  try: tryPlainly as (...given: string[]) => Promise<void>,
}
try {
  await verbs[verb]?.(...rest)
} catch (error) {
  if (!(error instanceof FaultError)) throw error
  say(`fault ${error.message}`)
}
