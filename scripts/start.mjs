// npm start: installs what is missing, builds, makes the demo book and prints its results.
import { join } from 'node:path'
import { ensureReady, root, run } from './ready.mjs'

await ensureReady()
run(process.execPath, [join(root, 'bin/germane.mjs'), 'demo', ...process.argv.slice(2)])
