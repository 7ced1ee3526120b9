import { type DrawerChanges, rowsPerBlock } from '#api'
import { type Bench, drawerOf } from '#bench'
import { blockOf } from './drawer-block.ts'

/** The drawer as JSON, block by block, kept in memory; after a change only its blocks are made anew. */
export interface DrawerCache {
  /** So many blocks from one on; all of them where nothing is said. */
  readonly blocks: (from?: number, count?: number) => Promise<DrawerText>
  readonly since: (version: number) => Promise<DrawerChanges>
}

/** JSON of blocks, and the state of the book they are of. */
export interface DrawerText {
  readonly version: number
  /** Parts in the whole drawer. */
  readonly count: number
  readonly from: number
  readonly blocks: readonly Buffer[]
}

/** What is known of the book. Blocks that are not asked for yet, or have changed, are missing. */
interface Known {
  version: number
  /** Numbers of the parts, row by row. */
  numbers: readonly number[]
  readonly blocks: (Promise<Buffer> | undefined)[]
}

export function drawerCache(bench: () => Bench): DrawerCache {
  const known: Known = { version: 0, numbers: [], blocks: [] }
  let turn: Promise<void> = Promise.resolve()
  /** Notices what changed; one after the other. */
  const look = (): Promise<void> => {
    turn = turn.catch(() => undefined).then(() => dropStale(known, bench()))
    return turn
  }
  return {
    blocks: async (from = 0, count = Number.POSITIVE_INFINITY) => {
      await look()
      const { version, numbers } = known
      const end = Math.min(from + count, Math.ceil(numbers.length / rowsPerBlock))
      const blocks: Buffer[] = []
      for (let i = from; i < end; i++) blocks.push(await blockAt(known, i, bench()))
      return { version, count: numbers.length, from, blocks }
    },
    since: async (since) => {
      const { version, count, rows, places } = await drawerOf(bench()).since(since)
      return { version, count, rows: [...places], block: blockOf(rows) }
    },
  }
}

/** Lets go of the blocks whose parts have changed. */
async function dropStale(known: Known, bench: Bench): Promise<void> {
  const drawer = drawerOf(bench)
  const { version, parts } = await drawer.touched(known.version)
  if (version === known.version) return
  const isLonger = (parts.at(-1) ?? 0) > (known.numbers.at(-1) ?? 0)
  const numbers = isLonger ? await drawer.numbers() : known.numbers
  for (const part of parts) known.blocks[Math.floor(rowOf(numbers, part) / rowsPerBlock)] = undefined
  known.numbers = numbers
  known.version = version
}

/** A block as it is kept, or made now. */
function blockAt(known: Known, i: number, bench: Bench): Promise<Buffer> {
  const there = known.blocks[i]
  if (there !== undefined) return there
  const made = makeBlock(known.numbers.slice(i * rowsPerBlock, (i + 1) * rowsPerBlock), bench)
  known.blocks[i] = made
  made.catch(() => {
    if (known.blocks[i] === made) known.blocks[i] = undefined
  })
  return made
}

async function makeBlock(numbers: readonly number[], bench: Bench): Promise<Buffer> {
  const rows = await drawerOf(bench).rows(numbers[0]!, numbers.at(-1)!)
  // other requests get their turn between blocks
  await new Promise((keep) => setImmediate(keep))
  return Buffer.from(JSON.stringify(blockOf(rows)))
}

/** Row of a part, by halving. */
function rowOf(numbers: readonly number[], part: number): number {
  let low = 0
  let high = numbers.length - 1
  while (low < high) {
    const middle = (low + high) >> 1
    if (numbers[middle]! < part) low = middle + 1
    else high = middle
  }
  return low
}

/** The answer as one text. */
export function drawerJson({ version, count, from, blocks }: DrawerText): Buffer {
  const head = `{"version":${version},"count":${count},"from":${from},"blocks":[`
  const pieces = blocks.flatMap((block, i) => (i === 0 ? [block] : [comma, block]))
  return Buffer.concat([Buffer.from(head), ...pieces, Buffer.from(']}')])
}

const comma = Buffer.from(',')
