import type { PartType } from '#core/device'

let loaded: Promise<readonly PartType[]> | undefined

/**
 * Every published part type Germane ships, in the order of their files; loaded when first asked for, then kept. Each
 * record names its source. A test holds the records against the schema, so they are not checked again here.
 *
 * @example findType(await loadCatalog(), 'AC128')
 */
export function loadCatalog(): Promise<readonly PartType[]> {
  loaded ??= import('./all-types.ts').then((all) => all.allTypes as readonly PartType[])
  return loaded
}
