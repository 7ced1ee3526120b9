import { CommanderError } from 'commander'
import { vi } from 'vitest'
import { germane as commandLine } from '#cli'
import { FaultError } from '#core/fault'

/** What a command did when it was called inside this process. */
export interface Called {
  readonly out: string
  /** Sentences of the faults, where it refused; then the code is 2. */
  readonly faults: string
  readonly code: number
}

/** Calls a command inside this process, which is quicker than starting one; nothing can be typed into it. */
export async function called(args: readonly string[]): Promise<Called> {
  const here = await commandLine(() => true)
  let out = ''
  let code = 0
  const before = process.exitCode
  const write = (more: string | Uint8Array): boolean => {
    out += String(more)
    return true
  }
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation(write)
  process.exitCode = 0
  try {
    await here.parseAsync(args, { from: 'user' })
  } catch (error) {
    if (error instanceof FaultError) return { out, faults: error.message, code: 2 }
    if (!(error instanceof CommanderError) || error.exitCode !== 0) throw error
  } finally {
    spy.mockRestore()
    code = Number(process.exitCode)
    process.exitCode = before
  }
  return { out, faults: '', code }
}

/** What a command prints when it is called inside this process. */
export const printed = async (args: readonly string[]): Promise<string> => (await called(args)).out
