// npm test: installs what is missing, checks types and style, builds, runs every test. Arguments go to the test runner.
import { join } from 'node:path'
import { ensureReady, root, run } from './ready.mjs'

await ensureReady()
const tool = (path) => join(root, 'node_modules', path)
const rest = process.argv.slice(2)
if (rest.length === 0) {
  run(process.execPath, [tool('typescript/bin/tsc'), '-p', 'src/core'])
  run(process.execPath, [tool('typescript/bin/tsc'), '-p', '.'])
  run(process.execPath, [tool('typescript/bin/tsc'), '-p', 'src/web'])
  run(process.execPath, [tool('@biomejs/biome/bin/biome'), 'check', '.'])
}
run(process.execPath, [tool('vitest/vitest.mjs'), 'run', ...rest])
