/** A field as it was and as it is, in words short enough for one sentence. */
const longestSaid = 60

const said = (value: unknown): string => {
  if (value === null || value === undefined) return 'nothing'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  const text = String(value)
  return `"${text.length > longestSaid ? `${text.slice(0, longestSaid)}…` : text}"`
}

const names: Readonly<Record<string, string>> = {
  begunOn: 'begun',
  finishedOn: 'finished',
  foundPart: 'part found',
  fittedPart: 'part fitted',
  type: 'wanted type',
}

/**
 * One sentence for what changed of a thing.
 *
 * @example fieldsSay('Job Hut intercom', { state: 'open' }, { state: 'done' }, ['state'])
 */
export function fieldsSay<F extends string>(
  whose: string,
  was: { readonly [K in F]?: unknown },
  is: { readonly [K in F]?: unknown },
  fields: readonly F[],
): string {
  const changed = fields.filter((field) => (was[field] ?? null) !== (is[field] ?? null))
  const [only] = changed
  if (only === undefined) return `Nothing of ${whose} was changed.`
  const list = changed.map((field) => names[field] ?? field).join(', ')
  if (changed.length > 1 || only === 'circuit') return `${whose}: ${list} changed.`
  return `${whose}: ${list} changed from ${said(was[only])} to ${said(is[only])}.`
}
