import { type Scheme, useScheme } from '#web/theme'

const next: Readonly<Record<Scheme, Scheme>> = { auto: 'light', light: 'dark', dark: 'auto' }
const words: Readonly<Record<Scheme, string>> = { auto: 'Auto', light: 'Light', dark: 'Dark' }

/** Light, dark, or as the machine is set; one press goes on to the next. */
export function SchemeSwitch() {
  const [scheme, choose] = useScheme()
  return (
    <button
      type="button"
      className="top-end"
      aria-label={`Light and dark: ${words[scheme].toLowerCase()}. Press for ${words[next[scheme]].toLowerCase()}.`}
      onClick={() => choose(next[scheme])}
    >
      {words[scheme]}
    </button>
  )
}
