import { useEffect, useState } from 'react'
import { announce } from '#web/live'
import { secondsText } from './words.ts'
import './countdown.css'

interface Props {
  readonly seconds: number
  /** `safe`: how long the current may flow; `wait`: how long to leave the part alone. */
  readonly kind: 'safe' | 'wait'
}

/** Seconds left since it was shown or begun again. */
function useLeft(seconds: number): readonly [left: number, again: () => void] {
  const [start, setStart] = useState(() => performance.now())
  const [now, setNow] = useState(start)
  useEffect(() => {
    const timer = setInterval(() => setNow(performance.now()), 250)
    return () => clearInterval(timer)
  }, [])
  const again = (): void => {
    const at = performance.now()
    setStart(at)
    setNow(at)
  }
  return [Math.max(0, seconds - (now - start) / 1000), again]
}

/** A line that shortens, and the seconds in words. */
export function Countdown({ seconds, kind }: Props) {
  const [left, again] = useLeft(seconds)
  const isOver = left === 0
  const isShort = left <= 10 && left > 0
  useEffect(() => {
    if (kind === 'safe' && isShort) announce('Ten seconds of safe time left.')
    if (isOver) announce(kind === 'safe' ? 'Time is up. Bias to zero or supply off.' : 'The wait is over. Go on.')
  }, [kind, isShort, isOver])
  return (
    <div className={`countdown ${kind}${isOver ? ' over' : ''}`}>
      <p className="countdown-text" role="timer" aria-live="off">
        <Words kind={kind} left={left} />
        {kind === 'safe' && isOver && (
          <>
            {' '}
            <button type="button" className="word" onClick={again}>
              It has cooled: count again
            </button>
          </>
        )}
      </p>
      <svg viewBox="0 0 100 2" preserveAspectRatio="none" aria-hidden="true" className="countdown-line">
        <path className="countdown-all" d="M0 1H100" />
        <path className="countdown-left" d={`M0 1H${((100 * left) / seconds).toFixed(2)}`} />
      </svg>
    </div>
  )
}

function Words({ kind, left }: { readonly kind: Props['kind']; readonly left: number }) {
  if (left > 0)
    return (
      <>
        <b className="countdown-number">{secondsText(left)}</b> <span className="soft">{words[kind].left}</span>
      </>
    )
  return <b>{words[kind].over}</b>
}

const words = {
  safe: { left: 'of safe time left', over: 'Time is up: bias to zero or supply off, and let it cool.' },
  wait: { left: 'to wait', over: 'The wait is over.' },
} as const
