// Builds the page into dist/web: hashed files, each also compressed. Left alone while its sources are unchanged.
import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { brotliCompressSync, constants, gzipSync } from 'node:zlib'
import { root } from './ready.mjs'

const from = join(root, 'src/web')
const into = join(root, 'dist/web')
/** Where it is made; it takes the place of the old page when it is whole. */
const making = join(root, 'dist/web.new')
const mark = '.sources'

/** Everything the page may be made of. */
const sources = [
  'src/web',
  'src/core',
  'src/report',
  'src/api',
  'package.json',
  'package-lock.json',
  'scripts/build-page.mjs',
]

function filesUnder(path) {
  const whole = join(root, path)
  if (!existsSync(whole)) return []
  if (path.includes('.')) return [path]
  return readdirSync(whole, { recursive: true, withFileTypes: true })
    .filter((f) => f.isFile() && !/\.(test|ref)\.(tsx?|json)$/.test(f.name))
    .map((f) => join(f.parentPath ?? f.path, f.name).slice(root.length + 1))
}

/** One number for all sources together. */
function sourceMark() {
  const hash = createHash('sha256')
  for (const file of sources.flatMap(filesUnder).sort()) {
    hash.update(file)
    hash.update(readFileSync(join(root, file)))
  }
  return hash.digest('hex')
}

/** Small files are sent as they are: their headers weigh more. */
const worthCompressing = 1000

function compress() {
  for (const f of readdirSync(making, { recursive: true, withFileTypes: true })) {
    if (!f.isFile() || !/\.(js|css|html|svg|json)$/.test(f.name)) continue
    const file = join(f.parentPath ?? f.path, f.name)
    const text = readFileSync(file)
    if (text.length < worthCompressing) continue
    const quality = { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } }
    writeFileSync(`${file}.br`, brotliCompressSync(text, quality))
    writeFileSync(`${file}.gz`, gzipSync(text, { level: 9 }))
  }
}

/** Modules of the project do nothing by being imported, save for the page's own start and its style sheets. */
const treeshake = { moduleSideEffects: (id) => !/\/src\/(core|report|api)\//.test(id.replaceAll('\\', '/')) }

/** How the page is built; every file is served from the page's own address, nothing is put inline. */
export const pageConfig = {
  root: from,
  base: '/',
  configFile: false,
  logLevel: 'warn',
  publicDir: false,
  build: {
    outDir: making,
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    chunkSizeWarningLimit: 700,
    manifest: 'files.json',
    rolldownOptions: { treeshake },
  },
  worker: { format: 'es', rolldownOptions: { treeshake } },
}

export async function buildPage() {
  if (!existsSync(join(from, 'index.html'))) return
  const now = sourceMark()
  if (existsSync(join(into, mark)) && readFileSync(join(into, mark), 'utf8') === now) return
  const [{ build }, { default: react }] = await Promise.all([import('vite'), import('@vitejs/plugin-react')])
  await build({ ...pageConfig, plugins: [react()] })
  compress()
  writeFileSync(join(making, mark), now)
  rmSync(into, { recursive: true, force: true })
  renameSync(making, into)
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildPage()
