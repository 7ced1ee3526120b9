import { type Range, type Scale, scaleOf, type Tester } from '#core/tester'
import { bookText, Plain, plainText } from '#web/typeset'
import { circuitText } from './circuit-text.ts'
import { faceMarks } from './face-marks.ts'
import './scale-face.css'

interface Props {
  readonly tester: Tester
  readonly range: Range
}

/** A range as one meets it: its printed scale, or its digits; below, what a division is worth. */
export function ScaleFace({ tester, range }: Props) {
  const scale = tester.movement === undefined ? undefined : scaleOf(tester, range)
  const unit = range.measures === 'current' ? 'A' : 'V'
  return (
    <figure className="face">
      {scale === undefined ? (
        <Digits range={range} />
      ) : (
        <Dial scale={scale} isCentre={tester.movement?.zero === 'centre'} says={saysOf(range, scale)} />
      )}
      <figcaption>
        <span className="face-range">
          <Plain value={range.fullScale} unit={unit} digits={4} />
          {isOtherName(range) && <span className="soft"> {bookText(range.id)}</span>}
        </span>
        {scale !== undefined && (
          <span className="soft quiet">
            1 div = <Plain value={range.fullScale / scale.divisions} unit={unit} digits={4} />
          </span>
        )}
        <span className="soft face-circuit">{bookText(circuitText(range, unit))}</span>
      </figcaption>
    </figure>
  )
}

/** Whether the name at the switch says more than the full-scale value. */
const isOtherName = (r: Range): boolean => !/^[\d.]+\s*[munkM\u00b5]?[AV]$/.test(r.id)

const saysOf = (range: Range, scale: Scale): string =>
  `Scale of ${scale.divisions} divisions, printed 0 to ${scale.end}; full scale is ${plainText(range.fullScale, range.measures === 'current' ? 'A' : 'V')}`

const radius = 132
const half = 46
const [cx, cy] = [110, 158]

const ray = (at: number, r: number): readonly [number, number] => {
  const angle = ((-half + 2 * half * at) * Math.PI) / 180
  return [cx + r * Math.sin(angle), cy - r * Math.cos(angle)]
}
const xy = (at: number, r: number): string =>
  ray(at, r)
    .map((v) => v.toFixed(1))
    .join(' ')

interface DialProps {
  readonly scale: Scale
  readonly isCentre: boolean
  readonly says: string
}

/** A printed scale with the needle at rest. */
function Dial({ scale, isCentre, says }: DialProps) {
  const marks = faceMarks(scale.divisions, scale.end)
  const ticks = (isLong: boolean, length: number): string =>
    marks
      .filter((m) => m.isLong === isLong)
      .map((m) => `M${xy(m.at, radius)}L${xy(m.at, radius - length)}`)
      .join('')
  return (
    <svg className="dial" viewBox="0 0 220 94" role="img" aria-label={says}>
      <path className="dial-line" d={`M${xy(0, radius)}A${radius} ${radius} 0 0 1 ${xy(1, radius)}`} />
      <path className="dial-tick" d={ticks(false, 5)} />
      <path className="dial-tick long" d={ticks(true, 9)} />
      {marks.map((m) => m.label !== undefined && <Label key={m.at} at={m.at} text={m.label} />)}
      <path className="dial-needle" d={`M${xy(isCentre ? 0.5 : 0, 97)}L${xy(isCentre ? 0.5 : 0, radius - 3)}`} />
    </svg>
  )
}

function Label({ at, text }: { readonly at: number; readonly text: string }) {
  const [x, y] = ray(at, radius + 9)
  return (
    <text className="dial-number" x={x.toFixed(1)} y={y.toFixed(1)} textAnchor="middle">
      {text}
    </text>
  )
}

/** A digital range: its digits at full scale, down to the step it shows. */
function Digits({ range }: { readonly range: Range }) {
  const unit = range.measures === 'current' ? 'A' : 'V'
  const step = 'step' in range.circuit ? range.circuit.step : range.fullScale / 1000
  const prefix = range.fullScale >= 1 ? 1 : range.fullScale >= 1e-3 ? 1e-3 : 1e-6
  const places = Math.max(0, Math.round(-Math.log10(step / prefix)))
  const shown = (range.fullScale / prefix).toFixed(places)
  return (
    <p className="digits">
      <span className="digits-number">
        {shown}
        <span className="unit">{`\u2009${prefix === 1 ? '' : prefix === 1e-3 ? 'm' : 'µ'}${unit}`}</span>
      </span>
      <span className="soft"> in steps of </span>
      <span className="quiet">
        <Plain value={step} unit={unit} digits={3} />
      </span>
    </p>
  )
}
