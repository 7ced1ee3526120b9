import './curve.css'

export { CurvesScreen } from './curves-screen.tsx'
export { PartCurves } from './part-curves.tsx'
