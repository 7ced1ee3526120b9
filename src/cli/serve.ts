import { fileURLToPath } from 'node:url'
import type { Command } from 'commander'
import { onBench, putDemo } from '#bench'
import { FaultError } from '#core/fault'
import { type RunningServer, serverDefaults, startServer } from '#server'
import { writeExample } from './example.ts'
import { exitCodes } from './exit.ts'
import { badOption, benchOptions, bookWords, withBook, withJson } from './options.ts'
import { printJson, printLines } from './output.ts'
import { version } from './version.ts'

interface ServeOptions {
  readonly book?: string
  readonly port: string
  readonly lan?: boolean
  readonly openDemo?: boolean
  readonly json?: boolean
  readonly example?: boolean
}

const example = `germane serve                             # the book bench.germane, for this computer alone
germane serve --book demo.germane --open-demo
germane serve --port 0                    # any port that is free
germane serve --lan                       # for a tablet on your own network, with a pairing code
`

export function define(command: Command): void {
  withJson(withBook(command))
    .option('--port <port>', 'port to listen on; 0 for any that is free', String(serverDefaults.port))
    .option('--lan', 'open it to your local network, behind a pairing code')
    .option('--open-demo', 'put the demo into the book where it is new')
    .option('--example', 'print commands that work')
    .action(async (o: ServeOptions) => {
      if (o.example === true) return writeExample(example, 'text', o)
      const book = bookWords(benchOptions(o, true))
      const server = await started(o)
      say(server, o, book)
      await stopSignal()
      await server.close()
      process.exitCode = exitCodes.done
    })
}

async function started(o: ServeOptions): Promise<RunningServer> {
  const options = benchOptions(o, true)
  if (o.openDemo === true) await putDemoWhereNew(options)
  return startServer({
    bookFile: options.bookFile as string,
    port: portOf(o.port),
    lan: o.lan === true,
    pageFolder: fileURLToPath(new URL('./web', import.meta.url)),
    workerFile: new URL('./germane-worker.mjs', import.meta.url),
    version,
  })
}

/** A book that has something in it is served as it is. */
async function putDemoWhereNew(options: ReturnType<typeof benchOptions>): Promise<void> {
  await onBench({ ...options, create: true }, async (bench) => {
    try {
      await putDemo(bench)
    } catch (error) {
      if (!(error instanceof FaultError) || error.faults[0]?.code !== 'usage') throw error
    }
  })
}

function portOf(text: string): number {
  const port = Number(text)
  if (/^\d+$/.test(text.trim()) && port <= 65_535) return port
  throw badOption('--port', text, 'is no port', 'Write a whole number from 0 to 65535, such as 4747.')
}

function say({ url, lanUrls, pairingCode, port }: RunningServer, o: ServeOptions, book: string): void {
  if (o.json === true) {
    printJson({ format: 'germane/serve/1', url, port, lanUrls, pairingCode: pairingCode ?? null })
    return
  }
  printLines([
    `Germane is at ${url}`,
    ...(pairingCode === undefined ? ['Only this computer can reach it.'] : lanLines(lanUrls, pairingCode)),
    `Ctrl+C stops it; everything that was entered is in ${book}.`,
  ])
}

const lanLines = (urls: readonly string[], code: string): readonly string[] => [
  '',
  '*** OPEN TO YOUR LOCAL NETWORK ***',
  'Anyone on it who has the pairing code can read and change this book, and what is sent can be read on the way.',
  'Do not do this on a network you share with strangers.',
  '',
  ...urls.map((url) => `  On the tablet open ${url}`),
  `  and give the pairing code ${code.slice(0, 4)} ${code.slice(4)}`,
  '',
]

/** Is kept when the person, or the system, wants it to stop. */
const stopSignal = (): Promise<void> =>
  new Promise((keep) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => keep())
  })
