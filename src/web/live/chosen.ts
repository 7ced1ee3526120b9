/** Where the drawer leaves what was chosen; an address would be too long for it. */
const key = 'germane/chosen'

/** Leaves tags for the screen that is opened next. */
export const keepChosen = (tags: readonly string[]): void => window.sessionStorage.setItem(key, JSON.stringify(tags))

/** The tags that were left. */
export function chosenTags(): readonly string[] {
  try {
    return JSON.parse(window.sessionStorage.getItem(key) ?? '[]') as readonly string[]
  } catch {
    return []
  }
}
