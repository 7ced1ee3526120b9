import { apiClient } from '#api'

/** Name of this window, so that it knows its own changes when they come back as events. */
export const windowName: string = [...crypto.getRandomValues(new Uint8Array(8))]
  .map((b) => b.toString(16).padStart(2, '0'))
  .join('')

/** The server the page came from. */
export const api = apiClient('', { window: windowName })
