import { type View, viewWords } from '#core/curve'

interface Props {
  readonly name: string
  readonly views: readonly View[]
  readonly view: View
  readonly onView: (view: View) => void
}

const names: Readonly<Record<View, string>> = {
  lin: 'linear',
  log: 'logarithmic',
  gummel: 'Gummel',
  gain: 'gain',
  output: 'output family',
}

/** The ways in which curves can be looked at. */
export function ViewChoice({ name, views, view, onView }: Props) {
  return (
    <fieldset className="choice">
      <legend className="vh">How to look at the curves</legend>
      {views.map((v) => (
        <label key={v} title={viewWords[v]}>
          <input type="radio" name={name} checked={v === view} onChange={() => onView(v)} />
          {names[v]}
        </label>
      ))}
    </fieldset>
  )
}
