import { describe, expect, test } from 'vitest'
import { isLoopback, pairing, pairingDefaults } from '../../src/server/pairing.ts'
import { serving } from './serving.ts'

describe('a pairing', () => {
  const clock = { now: 0 }
  const wrongOne = (code: string): string => String((Number(code) + 1) % 10 ** pairingDefaults.digits).padStart(8, '0')

  test('has a code of eight digits, another each time', () => {
    const codes = new Set(Array.from({ length: 50 }, () => pairing(() => 0).code))
    expect(codes.size).toBe(50)
    for (const code of codes) expect(code).toMatch(/^\d{8}$/)
  })

  test('takes the code as a person types it, and gives a token that cannot be guessed', () => {
    const gate = pairing(() => 0)
    const token = gate.pair(` ${gate.code.slice(0, 4)} ${gate.code.slice(4)}`, 'a')
    expect(token).toMatch(/^[\w-]{43}$/)
    expect(gate.isPaired(token)).toBe(true)
    for (const other of [undefined, '', gate.code, `${token}x`]) expect(gate.isPaired(other)).toBe(false)
  })

  test('makes an address wait after five wrong codes, even with the right one, and no other', () => {
    const gate = pairing(() => clock.now)
    for (let i = 0; i < 5; i++) expect(() => gate.pair(wrongOne(gate.code), 'a')).toThrow('This is not the code')
    expect(() => gate.pair(gate.code, 'a')).toThrow('Too many wrong codes in a short time')
    expect(gate.pair(gate.code, 'b')).toMatch(/./)
    clock.now += pairingDefaults.waitMs
    expect(gate.pair(gate.code, 'a')).toMatch(/./)
  })

  test('closes after fifty wrong codes, wherever they came from', () => {
    const gate = pairing(() => clock.now)
    for (let i = 0; i < 50; i++) expect(() => gate.pair('', `a${i}`)).toThrow('This is not the code')
    expect(() => gate.pair(gate.code, 'b')).toThrow('Too many wrong codes were given')
  })

  test('remembers so many browsers; the oldest has to pair again', () => {
    const gate = pairing(() => 0, { browsers: 2 })
    const tokens = ['a', 'b', 'c'].map((from) => gate.pair(gate.code, from))
    expect(tokens.map(gate.isPaired)).toEqual([false, true, true])
  })

  test('knows this computer by its addresses', () => {
    expect(['127.0.0.1', '127.8.0.1', '::1', '::ffff:127.0.0.1'].map(isLoopback)).toEqual(Array(4).fill(true))
    expect(['192.168.1.5', '10.0.0.1', '1127.0.0.1', '::ffff:192.168.1.5', undefined].map(isLoopback)).toEqual(
      Array(5).fill(false),
    )
  })
})

describe('a server open to the local network', async () => {
  const { lanNames } = await import('../../src/server/guard.ts')
  const { networkInterfaces } = await import('node:os')
  const s = serving({ lan: true })
  const outside = Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .find((one) => !one.internal && one.family === 'IPv4')?.address
  const from = outside ?? '127.0.0.1'

  /** A request by way of the network, where this machine has one. */
  const askOver = async (path: string, init: RequestInit = {}): Promise<Response> =>
    fetch(`http://${from}:${s.server().port}${path}`, init)

  const pair = (code: string): Promise<Response> =>
    askOver('/api/pairing', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({ code }),
    })

  test('has a code and addresses, and answers to no other name', async () => {
    expect(s.server().pairingCode).toMatch(/^\d{8}$/)
    expect(s.server().lanUrls).toEqual(lanNames().map((name) => `http://${name}:${s.server().port}`))
    expect((await s.ask('/', { headers: { host: `evil.example:${s.server().port}` } })).status).toBe(421)
  })

  test('asks nothing of this computer itself', async () => {
    expect(await s.api().pairing()).toEqual({ isNeeded: true, isPaired: true })
    expect((await s.ask('/api/book')).status).toBe(200)
  })

  test('gives others the page, but nothing of the book before they are paired', async () => {
    if (outside === undefined) return expect(s.server().lanUrls.length).toBeGreaterThan(0)
    expect((await askOver('/')).status).toBe(200)
    expect(await (await askOver('/api/pairing')).json()).toEqual({ isNeeded: true, isPaired: false })
    for (const path of ['/api/book', '/api/drawer', '/api/events', '/api/photos/1', '/api/openapi.json', '/api/none'])
      expect([path, (await askOver(path)).status]).toEqual([path, 401])
    const write = await askOver('/api/demo', {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: '{}',
    })
    expect(write.status).toBe(401)
  })

  test('pairs with the code, by a cookie that scripts and other sites do not get', async () => {
    if (outside === undefined) return expect(from).toBe('127.0.0.1')
    const wrong = await pair('12345')
    expect(wrong.status).toBe(403)
    expect(wrong.headers.get('set-cookie')).toBeNull()
    const done = await pair(s.server().pairingCode!)
    expect(await done.json()).toEqual({ isNeeded: true, isPaired: true })
    const cookie = done.headers.get('set-cookie')!
    expect(cookie).toMatch(/^germane-pair=[\w-]{43}; Max-Age=43200; Path=\/; HttpOnly; SameSite=Strict$/)
    const headers = { cookie: cookie.split(';')[0]! }
    expect((await askOver('/api/book', { headers })).status).toBe(200)
    expect((await askOver('/api/book', { headers: { cookie: 'germane-pair=guessed' } })).status).toBe(401)
    const drawer = await askOver('/api/drawer', { headers })
    expect(drawer.headers.get('content-encoding')).toBe('gzip')
    expect(await drawer.json()).toMatchObject({ count: 0 })
  })

  test('makes those wait who guess', async () => {
    if (outside === undefined) return expect(from).toBe('127.0.0.1')
    let status = 0
    for (let i = 0; i < 8 && status !== 429; i++) status = (await pair('0')).status
    expect(status).toBe(429)
    const late = await pair(s.server().pairingCode!)
    expect([late.status, late.headers.get('retry-after')]).toEqual([429, '60'])
  })
})

describe('a server for this computer alone', async () => {
  const s = serving()
  const { networkInterfaces } = await import('node:os')

  test('cannot be reached over the network', async () => {
    expect(s.server().pairingCode).toBeUndefined()
    expect(s.server().lanUrls).toEqual([])
    for (const { address, family, internal } of Object.values(networkInterfaces()).flatMap((list) => list ?? []))
      if (!internal && family === 'IPv4')
        await expect(fetch(`http://${address}:${s.server().port}/`)).rejects.toThrow('fetch failed')
  })
})
