export { Axes, AxisTitle } from './axes.tsx'
export { Plot } from './plot.tsx'
