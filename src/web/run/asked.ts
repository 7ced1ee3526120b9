import type { TesterEntry } from '#api'
import { nextTag, wishDefaults } from '#core/sheet'

/** What is asked before a run, as it stands in the fields. */
export interface Asked {
  readonly tester: string
  readonly type: string
  readonly tag: string
  readonly ambient: string
  readonly polarity: string
  readonly material: string
}

const memory = 'germane/begin'

/** What was asked last in this browser, the tag counted on; words of the address go before. */
export function remembered(testers: readonly TesterEntry[], search: Readonly<Record<string, string>>): Asked {
  const before = JSON.parse(window.localStorage.getItem(memory) ?? '{}') as Partial<Asked>
  const wanted = search.tester ?? before.tester
  const tester = testers.find((t) => t.id === wanted) ?? testers.find((t) => t.from === 'book') ?? testers[0]
  return {
    tester: tester?.id ?? '',
    type: search.type ?? before.type ?? '',
    tag: search.tag ?? (before.tag === undefined ? '' : nextTag(before.tag)),
    ambient: before.ambient ?? String(wishDefaults.ambientC),
    polarity: search.polarity ?? before.polarity ?? '',
    material: search.material ?? before.material ?? '',
  }
}

/** Keeps what was asked for the next time. */
export const remember = (asked: Asked): void => window.localStorage.setItem(memory, JSON.stringify(asked))
