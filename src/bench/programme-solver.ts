import type { ProgrammeSolver } from '#core/match'

/** Seconds a programme may take; past it what is proven by then stands. */
const patience = 30

/** HiGHS, an open solver of linear and integer programmes; loaded when it is first wanted. */
export async function programmeSolver(): Promise<ProgrammeSolver> {
  const { default: load } = await import('highs')
  const highs = await load()
  return (programme) => {
    const found = highs.solve(programme, {
      output_flag: false,
      mip_rel_gap: 0,
      mip_abs_gap: 1e-10,
      time_limit: patience,
    })
    return {
      isOptimal: found.Status === 'Optimal',
      values: Object.fromEntries(
        Object.entries(found.Columns).map(([name, c]) => [name, 'Primal' in c ? c.Primal : 0]),
      ),
      duals: Object.fromEntries(found.Rows.flatMap((r) => ('Dual' in r ? [[r.Name, r.Dual]] : []))),
    }
  }
}
