import { z } from 'zod'
import { route } from './route.ts'

export const pairingShape = z
  .object({
    /** True where the server is open to the local network and asks for a code. */
    isNeeded: z.boolean(),
    /** True where this browser may go on. */
    isPaired: z.boolean(),
  })
  .meta({ id: 'Pairing' })
export type Pairing = z.infer<typeof pairingShape>

export const pairingRoutes = {
  pairing: route({
    method: 'get',
    path: '/api/pairing',
    summary: 'Whether this browser must give the pairing code. Always answered.',
    answer: pairingShape,
  }),
  pair: route({
    method: 'post',
    path: '/api/pairing',
    summary: 'Gives the pairing code that the server printed; a cookie remembers it.',
    body: z.strictObject({ code: z.string().max(20) }),
    answer: pairingShape,
  }),
}
