export { Plot } from './plot.tsx'
