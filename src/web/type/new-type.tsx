import { useScreenTitle } from '#web/live'
import { TypeTextEditor } from './type-editor.tsx'

/** A filled beginning with an invented type: writing over something is easier than writing on a blank page. */
const beginning = `# Values have their unit; bare numbers are SI. Values of PNP types are magnitudes: no minus signs.
type: MY-1
family: bjt                # bjt, diode, zener, jfet, mosfet, scr, triac, ujt
polarity: PNP
material: Ge
outline: TO-1
leads:
  order: E-B-C             # or: verify
  view: three leads in line, collector by the dot
ratings:
  V_CEO: 15 V
  I_C: 150 mA
  T_Jmax: 75 degC
  power: 150 mW at 25 degC ambient
limits:
  - { symbol: h_FE, min: 40, typ: 75, max: 130, at: { I_C: 2 mA, V_CE: 4.5 V } }
  - { symbol: I_CBO, max: 12 uA, at: { V_CB: 10 V, T: 25 degC } }
use: audio driver
source: where you have the numbers from
`

/** A type of one's own. */
export function NewType() {
  useScreenTitle('A part type of your own')
  return (
    <TypeTextEditor
      heading="A part type of your own"
      lead="Write over this example. What is wrong is said in its place as you type."
      start={beginning}
    />
  )
}
