import { useMemo } from 'react'
import type { PartType } from '#core/device'
import { type Position, type TemplatePlace, templateNamed, templates } from '#core/stage'
import { plainText } from '#web/typeset'
import { type Draft, draftOf, netlistDraft, textAt, withText } from './draft.ts'
import { DraftField, type Form } from './field.tsx'

interface Props {
  readonly form: Form
  readonly types: readonly PartType[]
}

/** Which stage it is. Another one comes with the values of its example. */
export function StageChoice({ form: { draft, onDraft } }: { readonly form: Form }) {
  const stage = textAt(draft, ['stage'])
  return (
    <label className="field">
      <span className="field-label">Stage</span>
      <select
        className="select"
        value={stage}
        onChange={(e) => onDraft(e.target.value === '' ? netlistDraft() : draftOf(e.target.value, draft))}
      >
        {templates.map((t) => (
          <option key={t.id} value={t.id}>
            {t.title}
          </option>
        ))}
        <option value="">free netlist</option>
      </select>
    </label>
  )
}

interface ValueProps extends Props {
  /** The position as it was understood last. */
  readonly position: Position | undefined
}

/** Values and tolerances of a position, and what stands in its places. */
export function ValueForm({ form, types, position }: ValueProps) {
  const { draft } = form
  const template = templates.find((t) => t.id === draft.stage)
  if (template === undefined) return <NetlistForm form={form} position={position} />
  return (
    <form className="stage-form" aria-label="Values of the position" onSubmit={(e) => e.preventDefault()}>
      <p className="soft small stage-wide">{template.says}</p>
      <Polarity form={form} />
      <DraftField form={form} path={['supply']} label="Supply" example="9 V" />
      {[...template.resistors, ...template.thermistors].map((r) => (
        <DraftField
          key={r.ref}
          form={form}
          path={['values', r.ref]}
          label={
            <>
              <b>{r.ref}</b> {r.role}
            </>
          }
          example={r.absent === undefined ? `${r.ohm} Ω` : `${r.absent === 'wire' ? 'a wire' : 'not there'}`}
        />
      ))}
      {template.thermistors.map((r) => (
        <DraftField
          key={r.ref}
          form={form}
          path={['beta', r.ref]}
          label={`B constant of ${r.ref}`}
          example={`${r.betaK} K`}
        />
      ))}
      <DraftField form={form} path={['tolerance']} label="Tolerance of resistors" example="10 %" />
      {template.places.map((p) => (
        <PlaceFields key={p.ref} place={p} form={form} types={types} />
      ))}
      {template.places.filter((p) => p.kind === 'Q').length > 1 && <PlaceChoice form={form} />}
      <Demands form={form} />
    </form>
  )
}

/** Values that stand in the place of those of a netlist; the netlist itself is a text. */
function NetlistForm({ form, position }: { readonly form: Form; readonly position: Position | undefined }) {
  const all = position === undefined ? [] : [...position.template.resistors, ...position.template.thermistors]
  return (
    <form className="stage-form" aria-label="Values of the position" onSubmit={(e) => e.preventDefault()}>
      <p className="soft small stage-wide">
        This position follows a netlist of its own: change that as text, below. What stands here takes the place of its
        values.
      </p>
      <DraftField form={form} path={['supply']} label="Supply" example={voltText(position)} />
      {all.map((r) => (
        <DraftField
          key={r.ref}
          form={form}
          path={['values', r.ref]}
          label={<b>{r.ref}</b>}
          example={plainText(r.ohm, 'ohm', 4)}
        />
      ))}
      <DraftField form={form} path={['tolerance']} label="Tolerance of resistors" example="10 %" />
      <Demands form={form} />
    </form>
  )
}

const voltText = (position: Position | undefined): string =>
  position === undefined ? '9 V' : plainText(position.template.supplyV, 'V', 3)

const polarities = ['PNP', 'NPN'] as const

function Polarity({ form: { draft, onDraft } }: { readonly form: Form }) {
  return (
    <fieldset className="choice stage-wide">
      <legend className="field-label">Polarity of the stage</legend>
      {polarities.map((p) => (
        <label key={p}>
          <input
            type="radio"
            name="polarity"
            checked={draft.polarity === p}
            onChange={() => onDraft(withText(draft, ['polarity'], p))}
          />
          {p === 'PNP' ? 'PNP, positive earth' : 'NPN, negative earth'}
        </label>
      ))}
    </fieldset>
  )
}

/** The place that is looked at. */
function PlaceChoice({ form: { draft, onDraft } }: { readonly form: Form }) {
  const template = templateNamed(textAt(draft, ['stage']))
  const place = textAt(draft, ['place']) || template.main
  return (
    <label className="field">
      <span className="field-label">Look at</span>
      <select className="select" value={place} onChange={(e) => onDraft(withText(draft, ['place'], e.target.value))}>
        {template.places.map((p) => (
          <option key={p.ref} value={p.ref}>
            {p.ref}, {p.role}
          </option>
        ))}
      </select>
    </label>
  )
}

interface PlaceProps extends Props {
  readonly place: TemplatePlace
}

/** What stands in a place: a published type, or a part in numbers. */
function PlaceFields({ place, form, types }: PlaceProps) {
  const { draft, onDraft } = form
  const path = ['parts', place.ref]
  const given = (draft.parts as Draft | undefined)?.[place.ref]
  const isNumbers = typeof given === 'object' && given !== null
  const words = useMemo(() => wordsFor(types, place.kind), [types, place.kind])
  const turn = (): void =>
    onDraft(
      isNumbers
        ? withText(draft, path, '')
        : { ...draft, parts: { ...(draft.parts as Draft), [place.ref]: numbersOf(place) } },
    )
  const head = (
    <>
      <b>{place.ref}</b> {place.role}
    </>
  )
  return (
    <div className="stage-place">
      {isNumbers ? (
        <fieldset className="stage-numbers">
          <legend className="field-label">{head}, in numbers at 25 °C</legend>
          <DraftField form={form} path={[...path, 'material']} label="Material" words={['Ge', 'Si']} />
          {place.kind === 'Q' ? (
            <>
              <DraftField form={form} path={[...path, 'gain']} label="Gain, leakage taken out" example="80 +- 10" />
              <DraftField form={form} path={[...path, 'leakage']} label="Leakage, emitter open" example="4 uA" />
              <DraftField form={form} path={[...path, 'vbe']} label="Base-emitter voltage" example="0.15 V" />
            </>
          ) : (
            <>
              <DraftField form={form} path={[...path, 'forward']} label="Forward voltage" example="0.3 V" />
              <DraftField form={form} path={[...path, 'leakage']} label="Reverse current" example="10 uA" />
            </>
          )}
        </fieldset>
      ) : (
        <DraftField form={form} path={path} label={head} example="a part type" words={words} />
      )}
      <button type="button" className="word small" onClick={turn}>
        {isNumbers ? 'Name a type instead' : 'Give numbers instead'}
      </button>
    </div>
  )
}

const wordsFor = (types: readonly PartType[], kind: TemplatePlace['kind']): readonly string[] =>
  types.filter((t) => t.family === (kind === 'Q' ? 'bjt' : 'diode')).map((t) => t.type)

const numbersOf = ({ kind }: TemplatePlace): Draft =>
  kind === 'Q'
    ? { material: 'Ge', gain: '80 +- 10', leakage: '4 uA', vbe: '0.15 V' }
    : { material: 'Ge', forward: '0.3 V', leakage: '10 uA' }

/** What the stage must stand. */
function Demands({ form }: { readonly form: Form }) {
  return (
    <details className="stage-wide stage-demands">
      <summary>What it must stand</summary>
      <div className="stage-form">
        <DraftField form={form} path={['from']} label="Coldest air" example="0 °C" />
        <DraftField form={form} path={['to']} label="Hottest air" example="50 °C" />
        <DraftField form={form} path={['sag']} label="Supply falls by" example="20 %" />
        <DraftField form={form} path={['ageing']} label="Resistors rise with age by" example="10 %" />
        <DraftField form={form} path={['swing']} label="Room the signal needs" example="a tenth of the supply" />
        <DraftField form={form} path={['drift']} label="Current may move by" example="50 %" />
        <DraftField form={form} path={['supplyResistance']} label="Resistance of the supply" example="0 Ω" />
        <DraftField form={form} path={['heatSink']} label="Heat sink, case to air" example="free air" />
      </div>
    </details>
  )
}
