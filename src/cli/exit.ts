/** Exit codes of every command. Documented in docs/reference/commands.md. */
export const exitCodes = {
  /** Done. */
  done: 0,
  /** Done, and something did not conform. */
  notConforming: 1,
  /** The input cannot be used; stderr says why. */
  unusable: 2,
  /** A fault inside Germane itself. */
  internal: 3,
} as const
