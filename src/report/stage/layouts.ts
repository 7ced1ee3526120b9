import type { Position } from '#core/stage'
import { netsOf } from './joints.ts'
import type { Layout } from './layout.ts'
import { pairLayouts } from './pair-layouts.ts'
import { singleLayouts } from './single-layouts.ts'
import { switchLayouts } from './switch-layouts.ts'

const layouts: Readonly<Record<string, Layout>> = { ...singleLayouts, ...pairLayouts, ...switchLayouts }

/** The picture of a template by its id; nothing where there is none. */
export const layoutOf = (id: string): Layout | undefined => (Object.hasOwn(layouts, id) ? layouts[id] : undefined)

/** Which leads a drawing joins, as `netsOf` numbers them; nothing for a template without a drawing. */
export function drawnNets(position: Position): ReadonlyMap<string, number> | undefined {
  const layout = layoutOf(position.template.id)
  return layout === undefined ? undefined : netsOf(layout, position)
}
