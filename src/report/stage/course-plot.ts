import type { CoursePoint, Position, Spread, StagePoint } from '#core/stage'
import type { Axis, Line, LinePlot, Panel } from '#report/plot'

/** A part in the stage, over temperature. */
export interface NamedCourse {
  readonly name: string
  readonly points: readonly CoursePoint[]
}

/** What is drawn: courses, what such stages do, and where the part that is looked at stands at 25 degC. */
export interface StageCourse {
  readonly courses: readonly NamedCourse[]
  readonly spread?: Spread
  readonly reference?: StagePoint
}

const air: Axis = { symbol: 'T_amb', name: 'air', unit: 'degC', kind: 'linear' }

/** Current and voltage of a stage over the temperature of its air, with the limits they must keep to. */
export function stageCoursePlot(position: Position, course: StageCourse): LinePlot {
  const isDiode = position.template.places.find((p) => p.ref === position.place)?.kind === 'D'
  const { reference } = course
  const current: Axis = {
    symbol: isDiode ? 'I_F' : 'I_C',
    name: isDiode ? 'forward current' : 'collector current',
    unit: 'A',
    kind: 'linear',
  }
  const voltage: Axis = {
    symbol: isDiode ? 'V_F' : 'V_CE',
    name: isDiode ? 'forward voltage' : 'collector voltage',
    unit: 'V',
    kind: 'linear',
  }
  const bounds = reference === undefined ? undefined : boundsOf(position, reference)
  return {
    title: `${position.title} over temperature`,
    desc: descOf(course),
    panels: [
      { ...panel(course, 'ic', current, bounds?.ic), key: keyOf(course, bounds !== undefined), isFromZero: true },
      panel(course, 'vce', voltage, bounds?.vce),
    ],
  }
}

type Side = 'ic' | 'vce'

function panel({ courses, spread }: StageCourse, side: Side, y: Axis, bounds: readonly number[] | undefined): Panel {
  const lines = courses.map(
    ({ points }, series): Line => ({
      series,
      points: points.map((p) => ({ x: p.temperatureC, y: p[side] })),
      draw: 'line',
      isDashed: series < courses.length - 1,
    }),
  )
  const swath = (spread?.at ?? []).map((s) => ({ x: s.temperatureC, low: s[side][0], high: s[side][2] }))
  return {
    x: air,
    y,
    lines,
    height: 170,
    ...(swath.length > 1 ? { swaths: [{ series: swathSeries, points: swath }] } : {}),
    ...(bounds === undefined ? {} : { bounds }),
    reach: swath.map((s) => s.x),
    reachY: swath.flatMap((s) => [s.low, s.high]),
  }
}

/** Colour of the swath: neither that of the part nor that of the published type. */
const swathSeries = 5

/** Most and least current that count as steady; collector voltages at which no room is left. */
function boundsOf({ demands, template }: Position, { ic, vce, rooms }: StagePoint) {
  if (template.rooms.length === 0) return undefined
  const [down, up] = rooms
  return {
    ic: [ic * (1 - demands.drift), ic * (1 + demands.drift)].filter((x) => x > 0),
    vce: [
      ...(down === undefined ? [] : [vce - (down - demands.swingV)]),
      ...(up === undefined ? [] : [vce + (up - demands.swingV)]),
    ],
  }
}

const keyOf = ({ courses, spread }: StageCourse, hasBounds: boolean) => [
  ...courses.map(({ name }, series) => ({
    series,
    draw: 'line' as const,
    isDashed: series < courses.length - 1,
    label: name,
  })),
  ...(spread === undefined ? [] : [{ series: swathSeries, draw: 'swath' as const, label: '95 of 100 such stages' }]),
  ...(hasBounds ? [{ series: 0, draw: 'bound' as const, label: 'limits' }] : []),
]

const descOf = ({ courses }: StageCourse): string =>
  courses
    .map(({ name, points }) => {
      const [first, last] = [points[0], points.at(-1)]
      if (first === undefined || last === undefined) return `${name} has no point.`
      const at = (p: CoursePoint): string =>
        `${p.temperatureC} °C: ${(1e3 * p.ic).toPrecision(3)} mA, ${p.vce.toPrecision(3)} V`
      return `${name}, ${at(first)}; ${at(last)}.`
    })
    .join(' ')
