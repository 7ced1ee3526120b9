import { useEffect, useRef } from 'react'
import { type Shortcut, useShortcuts } from '#web/keys'

interface Props {
  readonly onClose: () => void
}

/** Every shortcut that works on this screen, as a sheet over the page. */
export function ShortcutList({ onClose }: Props) {
  const sheet = useRef<HTMLDialogElement>(null)
  const shortcuts = useShortcuts()
  useEffect(() => sheet.current?.showModal(), [])
  return (
    <dialog ref={sheet} className="dialog" aria-labelledby="shortcuts-title" onClose={onClose}>
      <header>
        <h2 id="shortcuts-title">Keyboard shortcuts</h2>
        <button type="button" className="word" onClick={() => sheet.current?.close()}>
          Close
        </button>
      </header>
      {groups(shortcuts).map(([group, list]) => (
        <section key={group} className="shortcut-group">
          <h3>{group}</h3>
          <dl className="shortcuts">
            {list.map((s) => (
              <div key={s.keys}>
                <dt>
                  <Keys keys={s.keys} />
                </dt>
                <dd>{s.says}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </dialog>
  )
}

const names: Readonly<Record<string, string>> = { Escape: 'Esc', ArrowDown: '↓', ArrowUp: '↑', ' ': 'Space' }

function Keys({ keys }: { readonly keys: string }) {
  const list = keys.split(' ')
  return list.map((key, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: the same key may come twice, and the list never changes
    <span key={`${key}${at}`}>
      {at > 0 && ' then '}
      <kbd>{names[key] ?? key}</kbd>
    </span>
  ))
}

function groups(shortcuts: readonly Shortcut[]): readonly (readonly [string, readonly Shortcut[]])[] {
  const named = new Map<string, Shortcut[]>([['Anywhere', []]])
  for (const s of shortcuts) {
    const group = s.group ?? 'Anywhere'
    named.set(group, [...(named.get(group) ?? []), s])
  }
  return [...named].filter(([, list]) => list.length > 0)
}
