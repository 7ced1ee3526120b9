import { type PointerEvent, useRef, useState } from 'react'
import { room } from './room.ts'

/** What a drag encloses, px. */
export interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

export const isInside = (b: Box, x: number, y: number): boolean =>
  x >= b.left && x <= b.right && y >= b.top && y <= b.bottom

interface BrushProps {
  /** A box, or nothing where it was a mere press. */
  readonly onChoose: (box: Box | undefined, at: readonly [number, number], isMore: boolean) => void
  readonly onOver?: (x: number, y: number) => void
  /** Takes the whole height. */
  readonly isAcross?: boolean
}

/** Smallest drag that is no press, px. */
const leastDrag = 5

/** Takes a drag as a box. */
export function Brush({ onChoose, onOver, isAcross = false }: BrushProps) {
  const start = useRef<readonly [number, number]>(undefined)
  const [box, setBox] = useState<Box>()
  const at = (e: PointerEvent): readonly [number, number] => {
    const r = e.currentTarget.getBoundingClientRect()
    return [e.clientX - r.left, e.clientY - r.top]
  }
  const boxTo = ([x, y]: readonly [number, number]): Box | undefined => {
    if (start.current === undefined) return undefined
    const [x0, y0] = start.current
    if (Math.hypot(x - x0, y - y0) < leastDrag) return undefined
    return {
      left: Math.min(x, x0),
      right: Math.max(x, x0),
      top: isAcross ? room.top : Math.min(y, y0),
      bottom: isAcross ? room.height - room.bottom : Math.max(y, y0),
    }
  }
  return (
    <div
      className="look-brush"
      onPointerDown={(e) => {
        e.currentTarget.setPointerCapture(e.pointerId)
        start.current = at(e)
      }}
      onPointerMove={(e) => {
        if (start.current === undefined) onOver?.(...at(e))
        else setBox(boxTo(at(e)))
      }}
      onPointerUp={(e) => {
        const done = boxTo(at(e))
        setBox(undefined)
        start.current = undefined
        onChoose(done, at(e), e.shiftKey)
      }}
      onPointerLeave={() => onOver?.(-1000, -1000)}
      onPointerCancel={() => {
        start.current = undefined
        setBox(undefined)
      }}
    >
      {box !== undefined && (
        <div
          className="look-box"
          style={{ left: box.left, top: box.top, width: box.right - box.left, height: box.bottom - box.top }}
        />
      )}
    </div>
  )
}
