// npm start: installs what is missing, builds, makes the demo book, prints its results and serves it as a page.
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { ensureReady, root, run } from './ready.mjs'

await ensureReady()
const germane = join(root, 'bin/germane.mjs')
const book = join(root, 'demo.germane')
run(process.execPath, [germane, 'demo', '--book', book])
// in this process, so that a signal to it reaches the server
process.argv = [process.execPath, germane, 'serve', '--book', book, ...process.argv.slice(2)]
await import(pathToFileURL(germane).href)
