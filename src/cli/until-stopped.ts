/** Does long work that Ctrl-C stops, keeping what is done; a second one ends the command at once. */
export async function untilStopped<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const control = new AbortController()
  const stop = (): void => control.abort()
  process.once('SIGINT', stop)
  try {
    return await work(control.signal)
  } finally {
    process.off('SIGINT', stop)
  }
}
