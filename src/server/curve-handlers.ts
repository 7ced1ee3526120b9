import type { KeptCurve } from '#api'
import { type BookCurve, curvesOfPart, drawerOf, keepCurve } from '#bench'
import { partsEvent } from './event-hub.ts'
import type { Handlers, Sent } from './handler.ts'

export const curveHandlers: Handlers<'curves' | 'keepCurve'> = {
  curves: async ({ bench }, { params }) => ({ curves: (await curvesOfPart(bench(), params.tag)).map(curveAnswer) }),

  keepCurve: async ({ bench, events }, { params, body, window }) => {
    const { kind, columns, temperatureC, takenAt, note, again, ...file } = body
    const kept = await keepCurve(bench(), {
      ...file,
      part: params.tag,
      ...(kind === undefined ? {} : { kind }),
      ...(columns === undefined ? {} : { columns }),
      ...(temperatureC === undefined ? {} : { temperatureC }),
      ...(takenAt === undefined ? {} : { takenAt }),
      ...(note === undefined ? {} : { note }),
      ...(again === undefined ? {} : { again }),
    })
    events.tell(partsEvent([params.tag], await drawerOf(bench()).version(), window))
    return { curve: curveAnswer(kept) }
  },
}

const curveAnswer = ({ hash: _, ...kept }: BookCurve): Sent<KeptCurve> => kept
