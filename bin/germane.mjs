#!/usr/bin/env node
// The command. On a clone that was never built it makes itself ready first.
import { existsSync } from 'node:fs'

const built = new URL('../dist/germane.mjs', import.meta.url)
if (!existsSync(built)) {
  const { ensureReady } = await import('../scripts/ready.mjs')
  await ensureReady()
}
await import(built.href)
