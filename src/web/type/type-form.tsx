import { ratingUnits } from '#core/device'
import { printPlain } from '#core/quantity'
import { type Path, pathText } from '#core/text'
import { LetterSymbol } from '#web/typeset'
import { withItem } from './form-change.ts'
import { FormField, FormSelect, type FormText } from './form-field.tsx'
import { FormLimits } from './form-limits.tsx'
import { countAt, entriesAt, isGroupAt, isListAt, type OpenText, textAt } from './form-open.ts'
import { familyChoices, ordersOf, polaritiesOf, ratingPath, ratingsFor } from './form-words.ts'
import { ratingNames } from './rating-names.ts'
import './type-form.css'

/** The record of a type as a form: another view of the same text. What the form does not show stays in the text. */
export function TypeForm(form: FormText) {
  return (
    <form className="type-form" aria-label="Part type as a form" onSubmit={(e) => e.preventDefault()}>
      <Elsewhere form={form} />
      <section className="spread">
        <h2>What it is</h2>
        <Kind form={form} />
      </section>
      <section className="spread">
        <h2>Leads</h2>
        <div className="matter form-grid">
          <FormField
            form={form}
            path={['leads', 'order']}
            label="Order"
            example="E-B-C"
            words={ordersOf(textAt(form.open, ['family']))}
          />
          <div className="form-wide">
            <FormField
              form={form}
              path={['leads', 'view']}
              label="Seen from"
              example="bottom view, clockwise from the tab"
            />
          </div>
          <FormField form={form} path={['leads', 'caseConnected']} label="Case connected to" example="C" />
        </div>
      </section>
      <section className="spread">
        <h2>
          Ratings <span className="soft">never to be passed, as magnitudes</span>
        </h2>
        <RatingFields form={form} />
      </section>
      <section className="spread">
        <h2>
          Limits <span className="soft">each counts at its conditions only</span>
        </h2>
        <FormLimits form={form} />
      </section>
      <section className="spread">
        <h2>Where the numbers are from</h2>
        <Sources form={form} />
      </section>
    </form>
  )
}

interface PartProps {
  readonly form: FormText
}

function Kind({ form }: PartProps) {
  const family = textAt(form.open, ['family'])
  const polarities = polaritiesOf(family)
  return (
    <div className="matter form-grid">
      <FormField form={form} path={['type']} label="Number" example="GX-17" />
      <FormSelect form={form} path={['family']} label="Kind" choices={familyChoices} />
      {(polarities.length > 0 || textAt(form.open, ['polarity']) !== '') && (
        <FormSelect
          form={form}
          path={['polarity']}
          label={family === 'bjt' ? 'Polarity' : family === 'ujt' ? 'Base' : 'Channel'}
          choices={polarities.map((p) => [p, p] as const)}
          none="not said"
        />
      )}
      <FormSelect
        form={form}
        path={['material']}
        label="Material"
        choices={[
          ['Ge', 'germanium'],
          ['Si', 'silicon'],
          ['GaAs', 'gallium arsenide'],
        ]}
        none="not said"
      />
      <FormField form={form} path={['outline']} label="Case" example="TO-1" />
      <FormField form={form} path={['use']} label="Made for" example="audio driver" />
    </div>
  )
}

function RatingFields({ form }: PartProps) {
  const { open, onText } = form
  const written = [...entriesAt(open, ['ratings']), ...entriesAt(open, ['ratings', 'other'])]
    .map(([symbol]) => symbol)
    .filter((s) => s !== 'power' && s !== 'other')
  const powers = powerPaths(open)
  return (
    <div className="matter form-grid">
      {ratingsFor(textAt(open, ['family']), written).map((symbol) => (
        <FormField
          key={symbol}
          form={form}
          path={ratingPath(symbol)}
          kind="value"
          label={
            <>
              <LetterSymbol of={symbol} />
              {symbol in ratingUnits && `, ${ratingNames[symbol as keyof typeof ratingNames]}`}
            </>
          }
        />
      ))}
      {powers.map((path, i) => (
        <FormField
          key={pathText(path)}
          form={form}
          path={path}
          label={i === 0 ? 'Power' : `Power ${i + 1}`}
          example="150 mW at 25 degC ambient"
          value={powerText(open, path)}
        />
      ))}
      {powerText(open, powers.at(-1)!) !== '' && (
        <button type="button" className="word" onClick={() => onText(withItem(open, ['ratings', 'power'], ''))}>
          Add a power at another temperature
        </button>
      )}
    </div>
  )
}

/** Where powers are written: one, or a list of them. */
function powerPaths(open: OpenText): readonly Path[] {
  const path = ['ratings', 'power']
  const count = isListAt(open, path) ? countAt(open, path) : 0
  return count === 0 ? [path] : Array.from({ length: count }, (_, i) => [...path, i])
}

/** A power in words, also where it is written by its parts. */
function powerText(open: OpenText, path: Path): string {
  if (!isGroupAt(open, path)) return textAt(open, path)
  const { powerW = '', of = 'ambient', atC = '25' } = Object.fromEntries(entriesAt(open, path))
  return powerW === '' ? '' : `${printPlain(Number(powerW), 'W', { ascii: true })} at ${atC} degC ${of}`
}

function Sources({ form }: PartProps) {
  const { open } = form
  const isFull = isGroupAt(open, ['provenance'])
  const path: Path = isFull ? ['provenance', 'where'] : ['source']
  const isList = isFull || isListAt(open, path)
  const paths = isList ? Array.from({ length: Math.max(1, countAt(open, path)) }, (_, i) => [...path, i]) : [path]
  return (
    <div className="matter form-grid form-sources">
      {isFull && (
        <FormSelect
          form={form}
          path={['provenance', 'kind']}
          label="How they were had"
          choices={[
            ['read', 'read there'],
            ['memory', 'from memory'],
            ['own', 'your own'],
          ]}
        />
      )}
      {paths.map((one, i) => (
        <FormField
          key={pathText(one)}
          form={form}
          path={one}
          label={i === 0 ? 'Source' : `Source ${i + 1}`}
          example="House sheet, 1964, page 3"
        />
      ))}
    </div>
  )
}

const shown =
  /^(type|family|polarity|material|outline|use|source(\[\d+\])?|leads\.(order|view|caseConnected)|ratings\..+|limits\[\d+\].*)$/

/** Keys that the form has fields for. */
const ownKeys = new Set(
  ['type', 'family', 'polarity', 'material', 'outline', 'use', 'leads', 'ratings', 'limits', 'source'].concat(
    'provenance',
  ),
)

/** What is wrong where the form has no field, and what else the text holds. */
function Elsewhere({ form }: PartProps) {
  const { open, notes } = form
  const base = pathText(open.base)
  const inside = (field: string): string => (base === '' ? field : field.slice(base.length + 1))
  const rest = notes.filter((n) => n.field === undefined || !shown.test(inside(n.field)))
  const keys = entriesAt(open, []).flatMap(([key]) => (ownKeys.has(key) ? [] : [key]))
  if (rest.length === 0 && keys.length === 0) return null
  return (
    <div className="form-elsewhere">
      {rest.map((n) => (
        <p key={`${n.line} ${n.say}`} className="field-fault">
          Line {n.line} of the text{n.field !== undefined && <span className="mono"> {n.field}</span>}: {n.say}
        </p>
      ))}
      {keys.length > 0 && (
        <p className="soft small">
          The text also has {keys.join(', ')}. The form leaves {keys.length === 1 ? 'it' : 'them'} as{' '}
          {keys.length === 1 ? 'it is' : 'they are'}.
        </p>
      )}
    </div>
  )
}
