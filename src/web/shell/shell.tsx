import { Link, Outlet, useNavigate, useRouterState } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import { Find } from '#web/find'
import { useShortcut } from '#web/keys'
import { LiveRegion } from '#web/live'
import { Notices } from './notices.tsx'
import { PairingGate } from './pairing-gate.tsx'
import { SchemeSwitch } from './scheme-switch.tsx'
import { ShortcutList } from './shortcut-list.tsx'
import './shell.css'

const screens = [
  { to: '/run', word: 'Run', keys: 'g r' },
  { to: '/identify', word: 'Identify', keys: 'g i' },
  { to: '/drawer', word: 'Drawer', keys: 'g d' },
  { to: '/match', word: 'Match', keys: 'g m' },
  { to: '/stage', word: 'Positions', keys: 'g s' },
  { to: '/jobs', word: 'Jobs', keys: 'g j' },
  { to: '/testers', word: 'Testers', keys: 'g t' },
  { to: '/types', word: 'Part types', keys: 'g p' },
] as const

/** The frame of every screen: one calm line at the top, then the screen. */
export function Shell() {
  const [isListOpen, setListOpen] = useState(false)
  useShortcut({ keys: '?', says: 'Show this list.' }, () => setListOpen(true))
  return (
    <>
      <a className="skip" href="#main">
        Skip to the page
      </a>
      <header className="top">
        <Link to="/" className="top-name" aria-label="Germane, start">
          Germane
        </Link>
        <nav aria-label="Screens" className="top-screens">
          {screens.map((s) => (
            <ScreenLink key={s.to} {...s} />
          ))}
        </nav>
        <Find />
        <div className="top-ends">
          <SchemeSwitch />
          <button
            type="button"
            className="top-end top-keys"
            aria-label="Keyboard shortcuts"
            onClick={() => setListOpen(true)}
          >
            ?
          </button>
        </div>
      </header>
      <Notices />
      <Main />
      {isListOpen && <ShortcutList onClose={() => setListOpen(false)} />}
      <LiveRegion />
    </>
  )
}

function ScreenLink({ to, word, keys }: (typeof screens)[number]) {
  const navigate = useNavigate()
  useShortcut({ keys, says: `Go to ${word}.`, group: 'Screens' }, () => navigate({ to }))
  return (
    <Link to={to} activeProps={{ 'aria-current': 'page' }} activeOptions={{ exact: false, includeSearch: false }}>
      {word}
    </Link>
  )
}

/** The screen; going to another one brings the focus along, unless the screen has put it somewhere itself. */
function Main() {
  const main = useRef<HTMLElement>(null)
  const path = useRouterState({ select: (s) => s.location.pathname })
  const before = useRef(path)
  useEffect(() => {
    if (before.current === path) return
    before.current = path
    if (!main.current?.contains(document.activeElement)) main.current?.focus({ preventScroll: true })
  }, [path])
  return (
    <main id="main" tabIndex={-1} ref={main}>
      <PairingGate>
        <Outlet />
      </PairingGate>
    </main>
  )
}
