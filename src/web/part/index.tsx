import './part.css'

export { PartScreen } from './part-screen.tsx'
export { ReportScreen } from './report-screen.tsx'
