import { spawn, spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { median } from '#core/numeric'

/** Figures of the server on a book of 100,000 parts, s. */
export interface Serving {
  /** Filling the book, whole process. */
  readonly fill: number
  /** From the command to the first line it prints, and to the first answer. */
  readonly ready: number
  readonly answers: readonly (readonly [what: string, first: number, median: number])[]
}

const asked: readonly (readonly [what: string, path: string])[] = [
  ['the first rows of the drawer', '/api/drawer?from=0&count=2'],
  ['the drawer, all 100,000 parts', '/api/drawer'],
  ['the start page', '/api/book'],
  ['a part with its workings', '/api/parts/F1-50000'],
  ['a list of runs', '/api/runs'],
  ['all part types', '/api/types'],
  ['a search of four letters', '/api/search?q=oc71'],
  ['a search of two letters that finds nothing', '/api/search?q=zz'],
  ['a report of a part', '/api/report?part=F1-00004'],
]

/** Fills a book and asks a server on it for what each screen needs. */
export async function serving(root: string, folder: string): Promise<Serving> {
  const command = join(root, 'bin/germane.mjs')
  const book = join(folder, 'large.germane')
  const began = performance.now()
  const filled = spawnSync(process.execPath, [command, 'book', 'fill', '--parts', '100000', '--book', book])
  if (filled.status !== 0) throw new Error(String(filled.stderr))
  const fill = (performance.now() - began) / 1000
  const started = performance.now()
  const server = await served(root, book)
  const { url } = server
  try {
    await seconds(`${url}/api/pairing`)
    const ready = (performance.now() - started) / 1000
    const answers: [string, number, number][] = []
    for (const [what, path] of asked) {
      const first = await seconds(`${url}${path}`)
      const later: number[] = []
      for (let i = 0; i < 9; i++) later.push(await seconds(`${url}${path}`))
      answers.push([what, first, median(later)])
    }
    return { fill, ready, answers }
  } finally {
    await server.end()
  }
}

/** A server on a book, once it has said where it is. */
export async function served(
  root: string,
  book: string,
): Promise<{ readonly url: string; readonly end: () => Promise<void> }> {
  const command = join(root, 'bin/germane.mjs')
  const server = spawn(process.execPath, [command, 'serve', '--port', '0', '--json', '--book', book])
  const ended = new Promise<void>((keep) => server.on('close', () => keep()))
  const { url } = JSON.parse(await firstDocument(server.stdout)) as { url: string }
  const end = (): Promise<void> => {
    server.kill('SIGTERM')
    return ended
  }
  return { url, end }
}

async function firstDocument(stream: NodeJS.ReadableStream): Promise<string> {
  let text = ''
  for await (const piece of stream) {
    text += String(piece)
    if (text.endsWith('}\n')) return text
  }
  throw new Error('the server ended before it said where it is')
}

async function seconds(url: string): Promise<number> {
  const began = performance.now()
  const response = await fetch(url)
  await response.arrayBuffer()
  if (!response.ok) throw new Error(`${url}: ${response.status}`)
  return (performance.now() - began) / 1000
}
