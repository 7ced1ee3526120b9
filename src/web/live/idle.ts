/** Longest wait for a moment in which nothing else is to be done, ms. */
const patience = 500

/** Keeps its promise when the page has a moment to spare, so that work that can wait stands in nobody's way. */
export const whenIdle = (): Promise<void> =>
  new Promise((keep) => {
    // Not every browser tells when it is idle.
    if (typeof window.requestIdleCallback !== 'function') setTimeout(keep, 50)
    else window.requestIdleCallback(() => keep(), { timeout: patience })
  })
