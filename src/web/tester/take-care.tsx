import type { Tester } from '#core/tester'
import { cautionsFor, testerExposure } from '#core/upkeep'

/** What to mind before one opens a tester or joins its leads. */
export const TakeCare = ({ tester }: { readonly tester: Tester }) =>
  cautionsFor(testerExposure(tester)).map((c) => (
    <p key={c.hazard} className="said small">
      {c.caution}
    </p>
  ))
