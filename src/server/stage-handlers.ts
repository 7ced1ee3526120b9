import { partsForStages } from '#bench'
import type { Handlers } from './handler.ts'

export const stageHandlers: Handlers<'stageParts'> = {
  stageParts: async ({ bench }, { query: { near, lot, type, tag, from, count } }) => {
    const found = await partsForStages(bench(), {
      ...(near === undefined ? {} : { nearA: near }),
      ...(lot === undefined ? {} : { lot }),
      ...(type === undefined ? {} : { type }),
      ...(tag === undefined ? {} : { tag }),
      ...(from === undefined ? {} : { from }),
      ...(count === undefined ? {} : { count }),
    })
    return { parts: [...found.parts], leftOut: [...found.leftOut], of: found.of }
  },
}
