// Makes a fresh clone ready: right Node, packages installed, command built. Uses nothing but Node itself.
import { spawnSync } from 'node:child_process'
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs'
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

/** Installs packages where they are missing or are not those of the lock file. One process at a time. */
export function ensureInstalled() {
  if (isInstalled()) return
  const turn = join(root, '.installing')
  for (let waited = 0; !takeTurn(turn); waited++) {
    if (waited === 600) {
      console.error(`Another install seems to be stuck. If none is running, remove ${turn} and try again.`)
      process.exit(1)
    }
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 1000)
  }
  try {
    if (!isInstalled()) install()
  } finally {
    rmSync(turn, { recursive: true, force: true })
  }
}

function takeTurn(folder) {
  try {
    mkdirSync(folder)
    return true
  } catch {
    return false
  }
}

/** On a fresh clone exactly what the lock file says; else only what has changed. */
function install() {
  console.error('Installing packages (once; the database driver may be compiled, which takes about a minute) ...')
  const how = existsSync(join(root, 'node_modules')) ? ['install', '--no-save'] : ['ci']
  const result = spawnSync(npm, [...how, '--include=dev'], {
    cwd: root,
    stdio: ['ignore', process.stderr, process.stderr],
    shell: process.platform === 'win32',
  })
  if (result.status === 0) return
  console.error('The packages could not be installed; what npm says of it stands above.')
  rmSync(join(root, '.installing'), { recursive: true, force: true })
  process.exit(1)
}

/** Whether every package of the lock file is there in its version; packages for other systems may be missing. */
function isInstalled() {
  const have = packagesOf(join(root, 'node_modules', '.package-lock.json'))
  const want = packagesOf(join(root, 'package-lock.json'))
  if (have === undefined || want === undefined) return false
  return Object.entries(want).every(
    ([name, p]) =>
      name === '' || have[name]?.version === p.version || (have[name] === undefined && p.optional === true),
  )
}

function packagesOf(file) {
  try {
    return JSON.parse(readFileSync(file, 'utf8')).packages
  } catch {
    return undefined
  }
}

/** Node, packages and the built command, in that order. */
export async function ensureReady() {
  requireNode()
  ensureInstalled()
  const { build } = await import('./build.mjs')
  await build()
}
