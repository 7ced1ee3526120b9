import { type Candidates, type Identity, runnableAs } from '#core/identify'

interface Planning {
  readonly tester: string
  readonly candidates: Candidates | undefined
  readonly book: string | undefined
}

/** Share from which a type is worth a run sheet of its own. */
const worthTrying = 0.5

/** A word as the shell takes it. */
const word = (text: string): string => (/^[\w./-]+$/.test(text) ? text : `'${text.replaceAll("'", `'\\''`)}'`)

/**
 * The commands that plan a run sheet for a part: as the type it most likely is, where one stands out, and as what it is
 * without a name.
 */
export function planCommands(identity: Identity, { tester, candidates, book }: Planning): readonly string[] {
  const as = runnableAs(identity)
  if (as === undefined) return []
  const where = ['--tester', word(tester), ...(book === undefined ? [] : ['--book', word(book)])]
  const how =
    as.polarity === undefined
      ? ['--family', as.family, '--material', as.material]
      : ['--polarity', as.polarity, '--material', as.material]
  const [likeliest] = candidates?.types ?? []
  const named = likeliest !== undefined && likeliest.share >= worthTrying ? [[word(likeliest.type)]] : []
  return [...named, ['unknown', ...how]].map(([type, ...rest]) =>
    ['germane', 'plan', type, ...where, ...rest].join(' '),
  )
}
