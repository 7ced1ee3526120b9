import { useState } from 'react'
import { parseValue } from '#core/quantity'
import { Field, FileButton } from '#web/field'
import { api, queryClient, sayDone } from '#web/live'
import { Prose } from '#web/typeset'
import { curvesQuery } from './query.ts'

/** Takes a file with the curve of a part into the book. */
export function AddCurve({ tag }: { readonly tag: string }) {
  const [temperature, setTemperature] = useState('')
  const [fault, setFault] = useState<string>()
  const keep = async (file: File): Promise<void> => {
    const temperatureC = temperatureOf(temperature)
    if (temperatureC === null) return setFault(`"${temperature}" is no temperature. Write for example 23.`)
    try {
      const text = await file.text()
      await api.keepCurve(tag, {
        text,
        file: file.name.slice(0, 200),
        ...(temperatureC === undefined ? {} : { temperatureC }),
      })
      await queryClient.invalidateQueries(curvesQuery(tag))
      sayDone({ say: `Curve of ${tag} kept.` })
    } catch (e) {
      setFault(e instanceof Error ? e.message : String(e))
    }
  }
  return (
    <div className="curve-add">
      <Field
        label="Temperature of the part, °C"
        inputMode="decimal"
        example="23"
        value={temperature}
        onText={setTemperature}
      />
      <p>
        <FileButton
          says="Add a curve"
          accept=".csv,.txt,text/csv"
          onFile={(file) => {
            setFault(undefined)
            void keep(file)
          }}
        />{' '}
        <span className="soft small">
          <Prose text="A table of readings, a row for each point: V_F and I_F, or V_BE, V_CE, I_B and I_C, or V_GS, V_DS and I_D." />{' '}
          It is kept as it was read.
        </span>
      </p>
      {fault !== undefined && (
        <p className="field-fault" role="alert">
          {fault}
        </p>
      )}
    </div>
  )
}

/** What was typed, degC; undefined for nothing, null for what is no temperature. */
function temperatureOf(text: string): number | undefined | null {
  if (text.trim() === '') return undefined
  const parsed = parseValue(text, { unit: 'degC' })
  return parsed.ok && parsed.value >= -200 && parsed.value <= 300 ? parsed.value : null
}
