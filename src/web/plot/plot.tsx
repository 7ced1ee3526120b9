import { useEffect, useRef, useState } from 'react'
import './plot.css'

interface PlotProps {
  /** Draws at a width in px; type keeps its size. Only the report's plots draw, and they escape every text. */
  readonly draw: (width: number) => string
  /** Widest drawing, px. */
  readonly widest?: number
}

/** A plot of the report, drawn as wide as its place and drawn again when that changes. */
export function Plot({ draw, widest = 760 }: PlotProps) {
  const place = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  useEffect(() => {
    const at = place.current
    if (at === null) return
    const watch = new ResizeObserver(() => setWidth(Math.min(widest, Math.floor(at.clientWidth))))
    watch.observe(at)
    return () => watch.disconnect()
  }, [widest])
  const svg = width < 120 ? '' : draw(width)
  // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn by the report's own plots, which escape every text
  return <div ref={place} className="plot-place" dangerouslySetInnerHTML={{ __html: svg }} />
}
