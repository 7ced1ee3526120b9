import { FaultError } from '#core/fault'
import type { Book } from './book.ts'
import { enter } from './journal.ts'
import { saveSettingIn, settingIn } from './setting.ts'
import { type Work, write } from './transaction.ts'

/** A word for one thing, kept with others of its sort under a setting of the book. */
export interface Mark {
  readonly setting: string
  readonly of: string
  /** Null takes the mark away. */
  readonly word: string | null
}

/**
 * Marks a thing with a word, as an edit of the journal.
 *
 * @param say the edit in one sentence
 * @param at date and time now, ISO
 * @returns number of the edit; nothing where the mark was there already
 */
export const saveMarkNoted = (
  book: Book,
  mark: Mark & { readonly say: string },
  at: string,
): Promise<number | undefined> =>
  write(book, async (work) => {
    const { setting, of, word, say } = mark
    const before = await putMark(work, mark)
    if (before === word) return undefined
    return enter(work, { change: { kind: 'mark', setting, of, before, after: word }, say }, at)
  })

/** Puts a mark in place of the one there was, and gives that. */
async function putMark(work: Work, { setting, of, word }: Mark): Promise<string | null> {
  const { [of]: before, ...others } = await marksIn(work, setting)
  if (before !== (word ?? undefined))
    await saveSettingIn(work, setting, word === null ? others : { ...others, [of]: word })
  return before ?? null
}

async function marksIn(work: Work, setting: string): Promise<Readonly<Record<string, string>>> {
  const kept = await settingIn(work, setting)
  return typeof kept === 'object' && kept !== null ? (kept as Record<string, string>) : {}
}

/** Puts a mark back to what it was. @throws {FaultError} `usage` where it was changed again since */
export async function putMarkBack(
  work: Work,
  { setting, of, before, after }: { setting: string; of: string; before: string | null; after: string | null },
): Promise<void> {
  const now = (await marksIn(work, setting))[of] ?? null
  if (now !== after)
    throw new FaultError({
      code: 'usage',
      problem: `The mark of ${of} was changed again since`,
      mend: 'Undo the later change first, or change it by hand.',
    })
  await putMark(work, { setting, of, word: before })
}
