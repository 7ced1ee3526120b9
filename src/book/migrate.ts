import { existsSync } from 'node:fs'
import type { Driver } from './book.ts'
import { connect, versionOf } from './connect.ts'
import { requireKnown } from './header.ts'
import type { Migration } from './migrations/index.ts'
import { draftOf, dropDraft, place } from './placing.ts'
import { bookFault, codeOf } from './trouble.ts'

/**
 * Brings an older book up to date. The book as it was is copied beside it first; then all missing migrations and the
 * new version number are kept together in one transaction, or none of them.
 *
 * @throws {FaultError} `book` where the book is newer, or a migration fails: then nothing has changed
 */
export async function migrate(driver: Driver, path: string, file: string, steps: readonly Migration[]): Promise<void> {
  requireKnown(file, versionOf(driver), steps.length)
  if (versionOf(driver) === steps.length) return
  driver.pragma('foreign_keys = OFF')
  driver.exec('BEGIN IMMEDIATE')
  try {
    const version = versionOf(driver)
    if (version > 0 && version < steps.length) await keepCopy(path, version)
    applySteps(driver, file, steps.slice(version))
    driver.exec('COMMIT')
  } finally {
    if (driver.inTransaction) driver.exec('ROLLBACK')
    driver.pragma('foreign_keys = ON')
  }
}

/** Runs migrations inside a transaction that is open, each followed by its mark. */
export function applySteps(driver: Driver, file: string, steps: readonly Migration[]): void {
  for (const step of steps) applyStep(driver, file, step)
  const loose = driver.pragma('foreign_key_check') as readonly unknown[]
  if (loose.length > 0)
    throw bookFault(
      file,
      `cannot be brought up to date: ${loose.length} of its rows point to rows that are not there`,
      'Check the book with the Germane that wrote it. Nothing was changed.',
    )
}

function applyStep(driver: Driver, file: string, step: Migration): void {
  try {
    driver.exec(step.sql)
    driver.pragma(`user_version = ${step.number}`)
  } catch (error) {
    if (!(error instanceof Error) || !/^SQLITE_(ERROR|CONSTRAINT)/.test(codeOf(error))) throw error
    throw bookFault(
      file,
      `cannot be brought up to date: step ${step.number}, "${step.name}", failed (${error.message})`,
      'Go on with the Germane that wrote it and report this. Nothing was changed.',
      error,
    )
  }
}

/** `bench.germane` of version 1 is kept as `bench.germane.version-1`. */
async function keepCopy(path: string, version: number): Promise<void> {
  const target = freeName(`${path}.version-${version}`)
  const draft = draftOf(target)
  dropDraft(draft)
  const reader = await connect(path, { waitMs: 5000, readOnly: true })
  try {
    reader.prepare('VACUUM INTO ?').run(draft)
    place(draft, target, target)
  } finally {
    reader.close()
    dropDraft(draft)
  }
}

function freeName(wanted: string): string {
  if (!existsSync(wanted)) return wanted
  for (let n = 2; ; n++) if (!existsSync(`${wanted}.${n}`)) return `${wanted}.${n}`
}
