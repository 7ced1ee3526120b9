import { z } from 'zod'
import { route } from './route.ts'

/** Words that repeat, said once: `words[at[i]]` is that of part i; -1 where it has none. */
export const wordColumnShape = z
  .object({ words: z.array(z.string()), at: z.array(z.number()) })
  .meta({ id: 'WordColumn' })
export type WordColumn = z.infer<typeof wordColumnShape>

const numbers = z.array(z.number().nullable())

/** The newest values of one parameter, part by part; null where it has none. SI units. */
export const symbolColumnShape = z
  .object({
    unit: z.string(),
    value: numbers,
    /** Standard uncertainty of `value`. */
    u: numbers,
    /** Brought to 25 degC; null where that cannot be done. */
    at25: numbers,
  })
  .meta({ id: 'SymbolColumn' })
export type SymbolColumn = z.infer<typeof symbolColumnShape>

/** Parts as columns of equal length. */
export const drawerBlockShape = z
  .object({
    tags: z.array(z.string()),
    types: wordColumnShape,
    lots: wordColumnShape,
    places: wordColumnShape,
    statuses: wordColumnShape,
    usedIn: wordColumnShape,
    /** What it is reserved for: the job, and the position where there is one. */
    reserved: wordColumnShape,
    /** Word of the newest run: `conforms`, `does not conform`, `undecided`, `not comparable`. */
    verdicts: wordColumnShape,
    /** `measured`, `short` or `open`. */
    states: wordColumnShape,
    /** 1 where the part has a note. */
    notes: z.array(z.number()),
    /** Number of photos. */
    photos: z.array(z.number()),
    /** Newest run with results; 0 for none. */
    runs: z.array(z.number()),
    symbols: z.record(z.string(), symbolColumnShape),
  })
  .meta({ id: 'DrawerBlock' })
export type DrawerBlock = z.infer<typeof drawerBlockShape>

/** Parts of one block; the last block may have fewer. */
export const rowsPerBlock = 256

/**
 * All parts, in the order in which they came: the blocks follow each other, each of `rowsPerBlock` parts but the last.
 * A part keeps its row for ever.
 */
export const drawerShape = z
  .object({
    /** State of the book this is; ask for changes since it. */
    version: z.number(),
    /** Parts in the whole drawer. */
    count: z.number(),
    /** Number of the first block given; 0 where all are. */
    from: z.number(),
    blocks: z.array(drawerBlockShape),
  })
  .meta({ id: 'Drawer' })
export type Drawer = z.infer<typeof drawerShape>

/** Rows that were added or changed since a version: `rows[i]` is where row i of `block` belongs. */
export const drawerChangesShape = z
  .object({ version: z.number(), count: z.number(), rows: z.array(z.number()), block: drawerBlockShape })
  .meta({ id: 'DrawerChanges' })
export type DrawerChanges = z.infer<typeof drawerChangesShape>

/** How many usable parts of each type there are. */
export const heldTypesShape = z
  .object({ types: z.array(z.object({ type: z.string(), parts: z.number() })) })
  .meta({ id: 'HeldTypes' })
export type HeldTypes = z.infer<typeof heldTypesShape>

export const drawerRoutes = {
  drawer: route({
    method: 'get',
    path: '/api/drawer',
    summary: 'All parts as columns with their newest results, or some blocks of them. Carries an ETag.',
    query: z.object({
      from: z.coerce.number().int().min(0).optional(),
      blocks: z.coerce.number().int().min(1).optional(),
    }),
    answer: drawerShape,
  }),
  drawerChanges: route({
    method: 'get',
    path: '/api/drawer/changes',
    summary: 'What changed in the drawer since a version.',
    query: z.object({ since: z.coerce.number().int().min(0) }),
    answer: drawerChangesShape,
  }),
  heldTypes: route({
    method: 'get',
    path: '/api/drawer/types',
    summary: 'How many usable parts of each known type lie in the drawer.',
    answer: heldTypesShape,
  }),
}
