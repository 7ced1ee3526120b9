import type { Fault } from '#core/fault'
import { derive, leaf, printPlain, type Quantity, term } from '#core/quantity'
import { nearNames } from '#core/text'
import { assumedDoubts } from './cause.ts'
import { supplyVoltage } from './formulas.ts'
import { onceFor } from './once-for.ts'
import type { Supply, Tester } from './tester.ts'

export type SupplyFound =
  | { readonly ok: true; readonly quantity: Quantity<'V'>; readonly supply: Supply }
  | { readonly ok: false; readonly faults: readonly Fault[] }

/** What a supply carries: numbers without doubt, or quantities with their own budgets. */
export interface SupplyLoad {
  readonly currentA: number | Quantity<'A'>
  /** Voltage lost in the meter and in resistors in series with the part. */
  readonly burdenV: number | Quantity<'V'>
}

/** Resistance between the cells, or inside an outside supply, at a tap. */
export const sourceOhm = (s: Supply, tapV: number): number =>
  s.kind === 'cells' ? s.ohmPerCell * (tapV / s.cellV) : s.ohmPerCell

/**
 * Voltage of a supply at the part: the tap, less what the current loses in the source, less the burden of the meter.
 * The voltage error is shared by all taps of one supply, whose cells they share.
 */
export function supplyAtPart(tester: Tester, supplyId: string, tapV: number, load: SupplyLoad): SupplyFound {
  const found = findSupply(tester, supplyId, tapV)
  if (!('supply' in found)) return found
  const { supply } = found
  const { open, source } = supplyAtTap(tester, supply, tapV)
  const { currentA, burdenV } = load
  const current =
    typeof currentA === 'number' ? leaf(currentA, 'A', { kind: 'stated', what: 'current of the part' }) : currentA
  const burden = typeof burdenV === 'number' ? leaf(burdenV, 'V', { kind: 'stated', what: 'burden' }) : burdenV
  return { ok: true, supply, quantity: derive(supplyVoltage, { open, current, source, burden }, 'voltage at the part') }
}

/** A supply by itself at a tap. */
export interface AtTap {
  readonly open: Quantity<'V'>
  /** What stands in series with it. */
  readonly source: Quantity<'ohm'>
}

/** The supply by itself at a tap: its open voltage and what stands in series with it. */
export const supplyAtTap = (tester: Tester, supply: Supply, tapV: number): AtTap =>
  onceFor(tester, `supply ${supply.id} at ${tapV}`, () => atTap(tester, supply, tapV))

function atTap(tester: Tester, supply: Supply, tapV: number): AtTap {
  const id = `${tester.id}/supply/${supply.id}`
  const open = leaf(tapV, 'V', { kind: 'stated', what: `${supply.id} at ${printPlain(tapV, 'V')}` }, [
    term(id, { label: `voltage of ${supply.id}`, u: 1, slope: supply.tolerance * tapV }),
  ])
  const ohm = sourceOhm(supply, tapV)
  const source = leaf(ohm, 'ohm', { kind: 'stated', what: `source resistance of ${supply.id}` }, [
    term(`${id}/source`, {
      label: `source resistance of ${supply.id}`,
      u: 1,
      slope: (assumedDoubts.source * ohm) / Math.sqrt(3),
      distribution: 'rectangular',
    }),
  ])
  return { open, source }
}

function findSupply(
  tester: Tester,
  id: string,
  tapV: number,
): { readonly supply: Supply } | Extract<SupplyFound, { ok: false }> {
  const supply = tester.supplies.find((s) => s.id.toLowerCase() === id.trim().toLowerCase())
  if (supply === undefined) {
    const names = tester.supplies.map((s) => s.id)
    const mend = names.length === 0 ? 'It has none.' : `Its supplies: ${names.join(', ')}.`
    const what = `supply on ${tester.name}`
    return { ok: false, faults: [{ code: 'not-found', what, name: id, near: nearNames(id, names), mend }] }
  }
  const fits =
    supply.kind === 'cells'
      ? supply.taps.some((t) => Math.abs(t - tapV) <= 1e-3 * t)
      : tapV >= (supply.min ?? 0) && tapV <= (supply.max ?? Number.POSITIVE_INFINITY)
  if (fits) return { supply }
  const mend =
    supply.kind === 'cells'
      ? `Its taps: ${supply.taps.map((t) => printPlain(t, 'V')).join(', ')}.`
      : `It gives ${printPlain(supply.min ?? 0, 'V')} to ${printPlain(supply.max ?? 0, 'V')}.`
  const problem = `cannot be set on ${supply.id}`
  return {
    ok: false,
    faults: [{ code: 'bad-input', place: { field: 'supply' }, value: printPlain(tapV, 'V'), problem, mend }],
  }
}
