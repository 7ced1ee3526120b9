// Makes a fresh clone ready: right Node, packages installed, command built. Uses nothing but Node itself.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = dirname(dirname(fileURLToPath(import.meta.url)))
const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'

/** Stops with a clear sentence on a Node that is too old. */
export function requireNode() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
  if (major > 20 || (major === 20 && minor >= 19)) return
  console.error(
    `Germane needs Node 20.19 or newer; this is ${process.versions.node}. Install a newer Node and try again.`,
  )
  process.exit(2)
}

/** Runs a program of this project and stops with its exit code where it fails. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32',
    ...options,
  })
  if (result.error) {
    console.error(`${command} could not be started: ${result.error.message}`)
    process.exit(1)
  }
  if (result.status !== 0) process.exit(result.status ?? 1)
}

/** Installs packages where they are missing or the lock file has changed since. */
export function ensureInstalled() {
  const mark = join(root, 'node_modules', '.germane-lock')
  const want = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
  if (existsSync(mark) && readFileSync(mark, 'utf8') === want) return
  console.error('Installing packages (once; the database driver may be compiled, which takes about a minute) ...')
  run(npm, ['ci', '--include=dev'], { stdio: ['ignore', process.stderr, process.stderr] })
  writeFileSync(mark, want)
}

/** Node, packages and the built command, in that order. */
export async function ensureReady() {
  requireNode()
  ensureInstalled()
  const { build } = await import('./build.mjs')
  await build()
}
