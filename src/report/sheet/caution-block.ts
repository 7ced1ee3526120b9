import type { Caution } from '#core/sheet'
import type { SheetProse } from './sheet.ts'

/** Cautions that go with a piece of work; nothing where there are none. */
export const cautionBlock = (cautions: readonly Caution[]): readonly SheetProse[] =>
  cautions.length === 0
    ? []
    : [{ kind: 'prose', heading: 'Take care', lines: cautions.map((c) => `${c.hazard}: ${c.caution}`) }]
