import type { Generated, Selectable } from 'kysely'

export interface JobTable {
  id: Generated<number>
  name: string
  equipment: string | null
  power: string | null
  state: string
  note: string | null
  begun_on: string | null
  finished_on: string | null
  removed: Generated<number>
  at: string
}

export interface PositionTable {
  id: Generated<number>
  job: number
  ref: string
  type: string | null
  role: string | null
  circuit: string | null
  found: string | null
  found_part: number | null
  decision: string
  fitted: string | null
  fitted_part: number | null
  done: Generated<number>
  note: string | null
  at: string
}

export interface ReservedTable {
  part: number
  job: number
  position: number | null
  at: string
}

export type JobRow = Selectable<JobTable>
export type PositionRow = Selectable<PositionTable>
