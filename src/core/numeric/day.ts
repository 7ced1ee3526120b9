const dayMs = 86_400_000

/** Days since 1970-01-01 of an ISO date or time; NaN for anything else. */
export const dayOf = (iso: string): number => Date.parse(iso) / dayMs

/** ISO date of a number of days since 1970-01-01. */
export const dateOf = (day: number): string => new Date(Math.floor(day) * dayMs).toISOString().slice(0, 10)
