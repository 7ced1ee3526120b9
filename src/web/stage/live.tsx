import { startTransition, useMemo, useState } from 'react'
import {
  type GlanceAt,
  type Levels,
  levelsAt,
  levelsOf,
  makeStage,
  type Parts,
  type Position,
  referenceCurrent,
  type Stage,
  type StageGlance,
  type State,
  stageGlance,
} from '#core/stage'
import { isDrawn, stageDrawing } from '#report/stage'
import { LetterSymbol, Plain, Prose, plainText } from '#web/typeset'
import type { Question } from './question.ts'
import { StageWordShown } from './verdict.tsx'

interface Props {
  readonly question: Question
  readonly state: State
  readonly onState: (state: string) => void
  /** Told in its own time, as a share of the supply: what else hangs on it takes longer. */
  readonly onSupply: (share: number) => void
}

/** Ends of the slider of temperature, degC, where nothing wider is asked for. */
const sliderEnds = [-10, 60] as const

/** The stage as it stands at one temperature and one supply voltage: the sliders answer at once. */
export function Live({ question: { position, parts }, state, onState, onSupply }: Props) {
  const [temperatureC, setTemperature] = useState(25)
  const [share, setShare] = useState(100)
  const supplyV = (position.supplyV * share) / 100
  const stage = useMemo(() => makeStage(position, parts), [position, parts])
  const fed = useMemo(() => ({ ...stage, position: { ...position, supplyV } }), [stage, position, supplyV])
  const referenceA = useMemo(() => referenceCurrent(stage), [stage])
  const { glance, levels } = useMemo(
    () => lookedAt(fed, { ambientC: temperatureC, supplyV, referenceA }, state),
    [fed, temperatureC, supplyV, referenceA, state],
  )
  const { fromC, toC } = position.demands
  const moveSupply = (next: number): void => {
    setShare(next)
    startTransition(() => onSupply(next / 100))
  }
  return (
    <section className="stage-live" aria-label="The stage">
      <Drawn position={fed.position} parts={parts} levels={levels} />
      <div className="stage-sliders">
        <Slider
          label="Air"
          says={`${temperatureC} °C`}
          low={Math.min(sliderEnds[0], fromC)}
          high={Math.max(sliderEnds[1], toC + 10)}
          value={temperatureC}
          onValue={setTemperature}
        />
        <Slider
          label="Supply"
          says={plainText(supplyV, 'V', 3)}
          low={50}
          high={130}
          value={share}
          onValue={moveSupply}
        />
        {position.template.states.length > 1 && (
          <fieldset className="choice">
            <legend className="field-label">State</legend>
            {position.template.states.map((s) => (
              <label key={s.name}>
                <input type="radio" name="state" checked={s.name === state.name} onChange={() => onState(s.name)} />
                {s.name}
              </label>
            ))}
          </fieldset>
        )}
      </div>
      <Glance glance={glance} />
      <Numbers position={position} levels={levels} />
    </section>
  )
}

/** Looks at a stage once: where it has one state, what was solved for the glance is what is drawn. */
function lookedAt(stage: Stage, at: GlanceAt, state: State): { glance: StageGlance; levels: Levels | undefined } {
  const glance = stageGlance(stage, at)
  const [only, ...others] = glance.points
  if (only === undefined || others.length > 0) return { glance, levels: levelsAt(stage, at.ambientC, state) }
  return { glance, levels: only.outcome.kind === 'point' ? levelsOf(stage, only.outcome.point, state) : undefined }
}

/** Whether it works at this temperature and this supply. */
const Glance = ({ glance: { word, why } }: { readonly glance: StageGlance }) => (
  <p className="stage-glance">
    <StageWordShown word={word} />. <Prose text={why} />
  </p>
)

interface DrawnProps {
  readonly position: Position
  readonly parts: Parts
  readonly levels: Levels | undefined
}

function Drawn({ position, parts, levels }: DrawnProps) {
  if (!isDrawn(position)) return <NodeTable levels={levels} />
  const svg = stageDrawing(position, parts, levels) ?? ''
  // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by the report, which escapes every text
  return <div className="stage-drawing" dangerouslySetInnerHTML={{ __html: svg }} />
}

/** A netlist has no drawing: its nodes in a table. */
function NodeTable({ levels }: { readonly levels: Levels | undefined }) {
  if (levels === undefined) return null
  const nodes = Object.entries(levels.nodeV).filter(([node]) => node !== '0')
  return (
    <table className="stage-nodes">
      <caption>Nodes against the common line</caption>
      <thead>
        <tr>
          <th scope="col">Node</th>
          <th scope="col" className="n">
            Voltage
          </th>
        </tr>
      </thead>
      <tbody>
        {nodes.map(([node, v]) => (
          <tr key={node}>
            <th scope="row">{node}</th>
            <td className="n">
              <Plain value={v} unit="V" digits={3} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

interface SliderProps {
  readonly label: string
  readonly says: string
  readonly low: number
  readonly high: number
  readonly value: number
  readonly onValue: (value: number) => void
}

const Slider = ({ label, says, low, high, value, onValue }: SliderProps) => (
  <label className="stage-slider">
    <span>
      <span className="field-label">{label}</span> <output>{says}</output>
    </span>
    <input
      type="range"
      min={low}
      max={high}
      step={1}
      value={value}
      aria-label={label}
      aria-valuetext={says}
      onChange={(e) => onValue(Number(e.target.value))}
    />
  </label>
)

/** The part that is looked at, in numbers. */
function Numbers({ position, levels }: { readonly position: Position; readonly levels: Levels | undefined }) {
  if (levels === undefined) return null
  const { point } = levels
  const isDiode = position.template.places.find((p) => p.ref === position.place)?.kind === 'D'
  const room = point.rooms.length === 0 ? undefined : Math.min(...point.rooms)
  return (
    <dl className="stage-numbers-live" aria-label={`At ${position.place}`}>
      <Told symbol={isDiode ? 'I_F' : 'I_C'} value={point.ic} unit="A" />
      <Told symbol={isDiode ? 'V_F' : 'V_CE'} value={point.vce} unit="V" />
      {!isDiode && <Told symbol="V_BE" value={point.vbe} unit="V" />}
      {room !== undefined && <Told words="room for the signal" value={room} unit="V" />}
      <Told words="heat" value={point.powerW} unit="W" />
      {point.junctionC !== point.ambientC && <Told words="junction" value={point.junctionC} unit="degC" />}
    </dl>
  )
}

interface ToldProps {
  readonly symbol?: string
  readonly words?: string
  readonly value: number
  readonly unit: 'A' | 'V' | 'W' | 'degC'
}

const Told = ({ symbol, words, value, unit }: ToldProps) => (
  <div>
    <dt>{symbol === undefined ? words : <LetterSymbol of={symbol} />}</dt>
    <dd>
      <Plain value={value} unit={unit} digits={3} />
    </dd>
  </div>
)
