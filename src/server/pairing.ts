import { randomBytes, randomInt, timingSafeEqual } from 'node:crypto'
import { Refused } from './said.ts'

/** How a browser on the local network proves that its owner can see this computer's screen. */
export interface Pairing {
  /** What the person types: eight digits. */
  readonly code: string
  /** Takes a code from an address; gives the token of a cookie. @throws {Refused} wrong, or tried too often */
  readonly pair: (code: string, address: string) => string
  readonly isPaired: (token: string | undefined) => boolean
}

export const pairingDefaults = {
  digits: 8,
  /** Wrong codes from one address before it has to wait. */
  triesAtOnce: 5,
  waitMs: 60_000,
  /** Wrong codes altogether before pairing closes until the server is started again. */
  triesAtAll: 50,
  /** Browsers that can be paired at a time; the oldest has to pair again. */
  browsers: 20,
} as const

export type PairingOptions = { readonly [K in keyof typeof pairingDefaults]: number }

/** Name of the cookie. */
export const pairingCookie = 'germane-pair'

interface Tries {
  count: number
  until: number
}

/** @param clockMs a clock that never goes back, ms */
export function pairing(clockMs: () => number, given: Partial<PairingOptions> = {}): Pairing {
  const options = { ...pairingDefaults, ...given }
  const code = String(randomInt(10 ** options.digits)).padStart(options.digits, '0')
  const tokens = new Set<string>()
  const tries = new Map<string, Tries>()
  let wrong = 0
  const requireRoom = (address: string): void => {
    if (wrong >= options.triesAtAll)
      throw new Refused(403, 'Too many wrong codes were given', 'Start germane serve --lan again for a new code.')
    const own = tries.get(address)
    if (own !== undefined && own.count >= options.triesAtOnce && clockMs() < own.until)
      throw new Refused(429, 'Too many wrong codes in a short time', 'Wait a minute, then try again.')
    if (own !== undefined && clockMs() >= own.until) tries.delete(address)
  }
  return {
    code,
    pair: (typed, address) => {
      requireRoom(address)
      if (!isSame(typed.replaceAll(/[\s-]/g, ''), code)) {
        wrong++
        const count = (tries.get(address)?.count ?? 0) + 1
        tries.set(address, { count, until: clockMs() + options.waitMs })
        throw new Refused(403, 'This is not the code', 'Read it again in the window that germane serve runs in.')
      }
      tries.delete(address)
      const token = randomBytes(32).toString('base64url')
      const oldest = tokens.size >= options.browsers ? tokens.values().next().value : undefined
      if (oldest !== undefined) tokens.delete(oldest)
      tokens.add(token)
      return token
    },
    isPaired: (token) => token !== undefined && tokens.has(token),
  }
}

/** Compares in a time that says nothing of where they differ. */
function isSame(typed: string, code: string): boolean {
  const a = Buffer.from(typed)
  const b = Buffer.from(code)
  return a.length === b.length && timingSafeEqual(a, b)
}

/** Whether an address is that of this computer itself. */
export const isLoopback = (address: string | undefined): boolean =>
  address !== undefined && /^(127\.|::1$|::ffff:127\.)/.test(address)
