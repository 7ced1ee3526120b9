import type { TesterEntry } from '#api'
import { nextTag, wishDefaults } from '#core/sheet'

/** What is asked before a run, as it stands in the fields. */
export interface Asked {
  readonly tester: string
  readonly type: string
  readonly tag: string
  readonly ambient: string
  readonly family: string
  readonly polarity: string
  readonly material: string
}

const memory = 'germane/begin'
const typing = 'germane/begin-typing'

const kept = (store: Storage, key: string): Partial<Asked> => JSON.parse(store.getItem(key) ?? '{}') as Partial<Asked>

/** What stands in the fields of this window and was not begun yet; else what was asked last in this browser. */
function before(): Partial<Asked> {
  const last = kept(window.localStorage, memory)
  const tag = last.tag === undefined ? {} : { tag: nextTag(last.tag) }
  return { ...last, ...tag, ...kept(window.sessionStorage, typing) }
}

/** What was asked last in this browser, the tag counted on; words of the address go before. */
export function remembered(testers: readonly TesterEntry[], search: Readonly<Record<string, string>>): Asked {
  const last = before()
  const wanted = search.tester ?? last.tester
  const tester = testers.find((t) => t.id === wanted) ?? testers.find((t) => t.from === 'book') ?? testers[0]
  return {
    tester: tester?.id ?? '',
    type: search.type ?? last.type ?? '',
    tag: search.tag ?? last.tag ?? '',
    ambient: last.ambient ?? String(wishDefaults.ambientC),
    family: search.family ?? last.family ?? 'bjt',
    polarity: search.polarity ?? last.polarity ?? '',
    material: search.material ?? last.material ?? '',
  }
}

/** Keeps what stands in the fields while this window is open: one may look something up and come back. */
export const rememberTyping = (asked: Asked): void => window.sessionStorage.setItem(typing, JSON.stringify(asked))

/** Keeps what was begun for the next time. */
export function remember(asked: Asked): void {
  window.localStorage.setItem(memory, JSON.stringify(asked))
  window.sessionStorage.removeItem(typing)
}
