import type { Device } from '#core/circuit'
import type { ReadingKind } from '#core/tester'
import { inventedGermanium, inventedPointContact, inventedSilicon } from './invented-devices.ts'

/** A part of the demo as it really is, and how it was read. */
export interface DemoPart {
  readonly tag: string
  readonly type: string
  /** Left out: shorted from collector to emitter. */
  readonly device?: Device
  /** What was read of it. */
  readonly reads: readonly ReadingKind[]
  /** When reading it began, minutes after half past two. */
  readonly minute: number
  /** What was noted beside a reading. */
  readonly notes?: Readonly<Partial<Record<ReadingKind, string>>>
}

type Model = Pick<DemoPart, 'type' | 'reads'> & { readonly device: Device }

/** Gain, and leakage of the collector junction in A. */
const germanium = (bf: number, isc: number): Model => ({
  type: '2N1305',
  reads: ['short', 'I_CBO', 'I_CEO', 'I_C', 'h_FE'],
  device: inventedGermanium(bf, isc, 0.055),
})

/** Gain, and saturation current in A. */
const silicon = (bf: number, is: number): Model => ({
  type: 'BC107',
  reads: ['short', 'I_CEO', 'I_C', 'h_FE', 'V_BE'],
  device: inventedSilicon(bf, is),
})

/** Series resistance, and leakage beside the contact, ohm. */
const pointContact = (rs: number, parallelOhm: number): Model => ({
  type: '1N34A',
  reads: ['short', 'I_R', 'I_F', 'V_F'],
  device: inventedPointContact(rs, parallelOhm),
})

/**
 * The invented parts of the demo. Its readings come from them: the run sheets of the Larkfield tester, played in a room
 * of 21 degC on the tester of one seed. The lot has good, bad and doubtful parts.
 */
export const demoParts: {
  readonly seed: number
  readonly ambientC: number
  readonly parts: readonly DemoPart[]
} = {
  seed: 382,
  ambientC: 21,
  parts: [
    { tag: 'OP-1', ...germanium(128, 2e-6), minute: 1 },
    { tag: 'OP-2', ...germanium(109, 1.7e-6), minute: 7 },
    { tag: 'OP-3', ...germanium(178, 2.2e-6), minute: 13 },
    {
      tag: 'OP-4',
      ...germanium(130, 2.8e-5),
      minute: 19,
      notes: { I_CBO: 'leaky', I_CEO: 'needle creeps up' },
    },
    { tag: 'OP-5', type: '2N1305', reads: ['short'], minute: 26 },
    { tag: 'OP-6', ...germanium(50, 8e-7), minute: 28, notes: { h_FE: 'close to the limit' } },
    { tag: 'OP-7', ...germanium(97, 1.7e-6), minute: 34 },
    { tag: 'OP-8', ...silicon(212, 8e-14), minute: 40, notes: { I_CEO: 'needle hardly leaves zero' } },
    { tag: 'OP-9', ...silicon(240, 1.1e-13), minute: 46 },
    { tag: 'OP-10', ...silicon(312, 1.1e-13), minute: 51 },
    { tag: 'OP-11', ...silicon(79, 6e-14), minute: 56, notes: { h_FE: 'gain low' } },
    { tag: 'OP-12', ...silicon(189, 8e-14), minute: 61 },
    { tag: 'OP-13', ...pointContact(85, 1.2e6), minute: 66 },
    { tag: 'OP-14', ...pointContact(100, 1.3e5), minute: 71, notes: { I_R: 'too much backward' } },
  ],
}
