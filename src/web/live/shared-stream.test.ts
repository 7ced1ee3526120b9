import { afterEach, expect, test, vi } from 'vitest'
import { type OpenStream, shareStream } from './shared-stream.ts'

/** Locks as a browser has them, for one window: the lock is given a moment after it was asked for. */
const locksOfOneWindow = {
  request: async (_: string, __: object, held: () => unknown): Promise<void> => {
    await Promise.resolve()
    await held()
  },
}

afterEach(() => vi.unstubAllGlobals())

/** A stream that can be told to say something, and counts how often it was opened and closed. */
function stream() {
  const counts = { opened: 0, closed: 0 }
  let tellNow: (isConnected: boolean) => void = () => undefined
  const open: OpenStream = (_, tell) => {
    counts.opened++
    tellNow = tell
    return () => {
      counts.closed++
    }
  }
  return { counts, open, tell: (isConnected: boolean) => tellNow(isConnected) }
}

const nothing = (): void => undefined

test('the window that has the lock opens the stream, and closes it when it ends', async () => {
  vi.stubGlobal('navigator', { locks: locksOfOneWindow })
  const { counts, open } = stream()
  const end = shareStream(open, nothing, nothing)
  await vi.waitFor(() => expect(counts.opened).toBe(1))
  end()
  await vi.waitFor(() => expect(counts.closed).toBe(1))
})

test('a window that ends before it has the lock opens none', async () => {
  vi.stubGlobal('navigator', { locks: locksOfOneWindow })
  const { counts, open } = stream()
  shareStream(open, nothing, nothing)()
  await new Promise((wait) => setTimeout(wait, 20))
  expect(counts).toEqual({ opened: 0, closed: 0 })
})

test('a stream that says its end after the window has ended is heard in peace', async () => {
  vi.stubGlobal('navigator', { locks: locksOfOneWindow })
  const { counts, open, tell } = stream()
  const heard: boolean[] = []
  const end = shareStream(open, nothing, (isConnected) => heard.push(isConnected))
  await vi.waitFor(() => expect(counts.opened).toBe(1))
  tell(true)
  end()
  expect(() => tell(false)).not.toThrow()
  expect(heard).toEqual([true, false])
})
