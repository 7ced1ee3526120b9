import { type DrawerChanges, rowsPerBlock } from '#api'
import { type Bench, drawerOf } from '#bench'
import { blockOf } from './drawer-block.ts'

/** The whole drawer as JSON, block by block, kept in memory; after a change only its blocks are made anew. */
export interface DrawerCache {
  /** The blocks as they now are. */
  readonly whole: () => Promise<DrawerText>
  readonly since: (version: number) => Promise<DrawerChanges>
}

/** JSON of blocks, and the state of the book they are of. */
export interface DrawerText {
  readonly version: number
  readonly count: number
  readonly blocks: readonly Buffer[]
}

export function drawerCache(bench: () => Bench): DrawerCache {
  let known: Known = { version: 0, numbers: [], blocks: [] }
  let turn: Promise<unknown> = Promise.resolve()
  const whole = async (): Promise<DrawerText> => {
    known = await brought(known, bench())
    return { version: known.version, count: known.numbers.length, blocks: known.blocks }
  }
  // one after the other: two requests at once do not build it twice
  const inTurn = (): Promise<DrawerText> => {
    const mine = turn.then(whole)
    turn = mine.catch(() => undefined)
    return mine
  }
  return {
    whole: inTurn,
    since: async (since) => {
      const { version, count, rows, places } = await drawerOf(bench()).since(since)
      return { version, count, rows: [...places], block: blockOf(rows) }
    },
  }
}

interface Known {
  readonly version: number
  /** Numbers of the parts, row by row. */
  readonly numbers: readonly number[]
  readonly blocks: readonly Buffer[]
}

/** Brings the blocks up to date with the book; gives way to other work between blocks. */
async function brought(known: Known, bench: Bench): Promise<Known> {
  const drawer = drawerOf(bench)
  const { version, parts } = await drawer.touched(known.version)
  if (version === known.version) return known
  const isLonger = (parts.at(-1) ?? 0) > (known.numbers.at(-1) ?? 0)
  const numbers = isLonger ? await drawer.numbers() : known.numbers
  const stale = new Set(parts.map((part) => Math.floor(rowOf(numbers, part) / rowsPerBlock)))
  const blocks = [...known.blocks]
  for (const block of [...stale].sort((a, b) => a - b)) {
    const own = numbers.slice(block * rowsPerBlock, (block + 1) * rowsPerBlock)
    const rows = await drawer.rows(own[0]!, own.at(-1)!)
    blocks[block] = Buffer.from(JSON.stringify(blockOf(rows)))
    await new Promise((keep) => setImmediate(keep))
  }
  return { version, numbers, blocks }
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

/** The answer as one text. That of the whole drawer is kept until a part changes. */
export function drawerJson(text: DrawerText, from = 0, some = text.blocks.length): Buffer {
  const isWhole = from === 0 && some >= text.blocks.length
  const known = isWhole ? wholes.get(text.blocks) : undefined
  if (known !== undefined) return known
  const chosen = text.blocks.slice(from, from + some)
  const head = `{"version":${text.version},"count":${text.count},"from":${from},"blocks":[`
  const pieces = chosen.flatMap((block, i) => (i === 0 ? [block] : [comma, block]))
  const json = Buffer.concat([Buffer.from(head), ...pieces, Buffer.from(']}')])
  if (isWhole) wholes.set(text.blocks, json)
  return json
}

const wholes = new WeakMap<readonly Buffer[], Buffer>()
const comma = Buffer.from(',')
