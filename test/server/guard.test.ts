import { describe, expect, test } from 'vitest'
import { largestPhoto } from '#api'
import { pictures, serving } from './serving.ts'

const s = serving()
const host = (): string => `127.0.0.1:${s.server().port}`
const json = { 'content-type': 'application/json' }

describe('names and origins', () => {
  test.each(['127.0.0.1', 'localhost', '[::1]', 'LOCALHOST'])(
    '%s with the port is a name of this server',
    async (name) => {
      const got = await s.ask('/api/pairing', { headers: { host: `${name}:${s.server().port}` } })
      expect(got.status).toBe(200)
    },
  )

  test.each(['evil.example', 'localhost.evil.example', '127.0.0.1.evil.example', 'localhost', '127.0.0.1:1'])(
    'a request for "%s" is refused, page and data alike',
    async (name) => {
      for (const path of ['/', '/api/book', '/assets/main-AbCd1234.js']) {
        const got = await s.ask(path, { headers: { host: name } })
        expect(got.status).toBe(421)
        expect(got.text).not.toContain('whole')
      }
    },
  )

  test.each(['http://evil.example', 'null', 'https://127.0.0.1', 'file://', 'http://localhost:1'])(
    'a page of %s is refused, reading and writing',
    async (origin) => {
      const read = await s.ask('/api/book', { headers: { origin } })
      const write = await s.ask('/api/demo', { method: 'POST', headers: { ...json, origin }, body: '{}' })
      expect([read.status, write.status]).toEqual([403, 403])
      expect(JSON.parse(write.text)).toMatchObject({
        format: 'germane/faults/1',
        faults: [{ sentence: expect.stringContaining('A page of another address asked') }],
      })
      expect(write.headers['access-control-allow-origin']).toBeUndefined()
    },
  )

  test('a page of this server is served', async () => {
    const got = await s.ask('/api/book', { headers: { origin: `http://${host()}`, 'sec-fetch-site': 'same-origin' } })
    expect(got.status).toBe(200)
  })

  test('a browser that says the request came from another site is believed', async () => {
    for (const site of ['cross-site', 'same-site'])
      expect((await s.ask('/api/book', { headers: { 'sec-fetch-site': site } })).status).toBe(403)
    expect((await s.ask('/', { headers: { 'sec-fetch-site': 'cross-site' } })).status).toBe(200)
  })
})

describe('bodies', () => {
  const post = (headers: Record<string, string>, body = '{}') => s.ask('/api/undo', { method: 'POST', headers, body })

  test.each(['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data; boundary=x', ''])(
    'that say they are "%s" are refused',
    async (type) => expect((await post(type === '' ? {} : { 'content-type': type })).status).toBe(415),
  )

  test('that say they are JSON and are not, or do not fit, are refused with what is wrong', async () => {
    expect((await post(json, '{')).status).toBe(400)
    expect((await post(json, '[]')).status).toBe(400)
    const unfit = await s.ask('/api/plan', { method: 'POST', headers: json, body: '{"tester":1,"colour":"red"}' })
    const { faults } = JSON.parse(unfit.text) as { faults: { place: { field: string }; sentence: string }[] }
    expect(unfit.status).toBe(400)
    expect(faults.map((f) => f.place.field)).toEqual(['tester', 'type', 'request'])
    expect(faults[2]?.sentence).toContain('colour')
  })

  test('that are too large are refused, whatever they say of their length', async () => {
    const large = JSON.stringify({ text: 'x'.repeat(2_100_000) })
    const said = await s.ask('/api/testers/check', { method: 'POST', headers: json, body: large })
    const unsaid = await s.ask('/api/testers/check', {
      method: 'POST',
      headers: { ...json, 'transfer-encoding': 'chunked' },
      body: large,
    })
    expect([said.status, unsaid.status]).toEqual([413, 413])
  })
})

describe('pictures', () => {
  const upload = (body: Uint8Array, type = 'image/png', name = 'x.png') =>
    s.ask(`/api/parts/OP-1/photos?name=${encodeURIComponent(name)}`, {
      method: 'POST',
      headers: { 'content-type': type },
      body,
    })

  test('are what their first bytes say, not their name or header', async () => {
    await s.api().makeDemo()
    for (const [kind, bytes] of Object.entries(pictures)) {
      const got = await upload(bytes, 'image/png', 'page.html')
      expect(JSON.parse(got.text)).toMatchObject({ photo: { type: `image/${kind}`, name: 'page.html' } })
    }
  })

  test.each([
    ['<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'],
    ['<!doctype html><script>alert(1)</script>'],
    ['GIF89a'],
    ['RIFF\x10\0\0\0AVI '],
    ['\xff\xd8'],
    [''],
  ])('%j is none', async (text) => {
    const got = await upload(Buffer.from(text, 'latin1'))
    expect(got.status).toBe(400)
    expect(got.text).toContain('is no PNG, JPEG or WebP picture')
  })

  test('are refused above 8 MB, and where the header says something else', async () => {
    const large = new Uint8Array(largestPhoto + 1)
    large.set(pictures.png)
    expect((await upload(large)).status).toBe(400)
    expect((await upload(new Uint8Array(largestPhoto + 5000))).status).toBe(413)
    expect((await upload(pictures.png, 'application/json')).status).toBe(415)
    const most = new Uint8Array(largestPhoto)
    most.set(pictures.png)
    expect((await upload(most)).status).toBe(200)
  })

  test('are sent as what they are, with nothing a browser could run', async () => {
    const got = await s.ask('/api/photos/1')
    expect(got.headers).toMatchObject({
      'content-type': 'image/png',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'; sandbox",
      'content-disposition': 'inline; filename="photo-1.png"',
    })
  })
})

describe('headers', () => {
  const safe = {
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
  }

  test.each(['/', '/api/book', '/api/none', '/none.js', '/assets/main-AbCd1234.js', '/api/openapi.json'])(
    'of %s keep a browser from guessing, telling and framing',
    async (path) => {
      const { headers } = await s.ask(path)
      expect(headers).toMatchObject(safe)
      expect(headers['content-security-policy']).toMatch(/frame-ancestors 'none'/)
      expect(headers['x-frame-options']).toBe('DENY')
      expect(headers['x-powered-by']).toBeUndefined()
    },
  )

  test('of a refused request as well', async () => {
    expect((await s.ask('/', { headers: { host: 'evil.example' } })).headers).toMatchObject(safe)
  })

  test('of the page let it load its own files and nothing else, and nothing inline', async () => {
    const policy = String((await s.ask('/')).headers['content-security-policy'])
    const rules = Object.fromEntries(
      policy.split('; ').map((rule) => [rule.split(' ')[0]!, rule.split(' ').slice(1).join(' ')]),
    )
    expect(rules).toMatchObject({
      'default-src': "'none'",
      'script-src': "'self'",
      'style-src': "'self'",
      'connect-src': "'self'",
      'base-uri': "'none'",
      'form-action': "'none'",
      'frame-ancestors': "'none'",
    })
    expect(policy).not.toMatch(/unsafe|http|\*/)
  })

  test('of a report let it have its own style and nothing else; what people typed stays text', async () => {
    const tag = '<img src=x onerror=alert(1)>'
    await s.api().changeParts(['OP-1'], { place: tag, note: `</style><script>alert(2)</script>` })
    const { status, headers, text } = await s.ask(`/api/report?part=OP-1&title=${encodeURIComponent(tag)}`)
    expect(status).toBe(200)
    expect(text).not.toContain('<img src=x')
    expect(text).not.toContain('<script>')
    expect(text).toContain('&lt;img src=x')
    expect(text).not.toMatch(/ style="/)
    const policy = String(headers['content-security-policy'])
    expect(policy).toMatch(/^default-src 'none'; style-src 'sha256-[\w+/]{43}='; /)
    expect(policy).not.toMatch(/unsafe|script-src/)
    expect(policy).toContain('sandbox')
    expect(policy).not.toContain('allow-scripts')
  })

  test('of data say that it is data and is not kept', async () => {
    const { headers } = await s.ask('/api/book')
    expect(headers['content-type']).toBe('application/json')
    expect(headers['cache-control']).toBe('no-store')
    expect(headers['content-security-policy']).toBe("default-src 'none'; frame-ancestors 'none'; sandbox")
  })
})

describe('the files of the page', () => {
  test('are given compressed where the browser takes it, and kept for ever where their name says what they are', async () => {
    const path = '/assets/main-AbCd1234.js'
    const plain = await s.ask(path)
    expect([plain.text, plain.headers['content-type']]).toEqual([
      'console.log("whole")',
      'text/javascript; charset=utf-8',
    ])
    expect(plain.headers['cache-control']).toBe('public, max-age=31536000, immutable')
    const asked = async (form: string) => s.ask(path, { headers: { 'accept-encoding': form } })
    const brotli = await asked('gzip, deflate, br')
    expect([brotli.text, brotli.headers['content-encoding']]).toEqual(['pretend brotli', 'br'])
    expect((await asked('gzip;q=1.0, br;q=0')).text).toBe('pretend gzip')
    expect((await asked('identity')).headers['content-encoding']).toBeUndefined()
  })

  test('the page itself is asked for each time, and sent only where it changed', async () => {
    const first = await s.ask('/')
    expect(first.headers['cache-control']).toBe('no-cache')
    const again = await s.ask('/', { headers: { 'if-none-match': String(first.headers.etag) } })
    expect([again.status, again.bytes.length]).toEqual([304, 0])
    expect((await s.ask('/parts/OP-4')).text).toBe(first.text)
    expect((await s.ask('/index.html')).text).toBe(first.text)
  })

  test.each([
    '/../secret.json',
    '/%2e%2e/secret.json',
    '/..%2fsecret.json',
    '/assets/../../secret.json',
    '/assets/%2e%2e%2f%2e%2e%2fsecret.json',
    '/..\\secret.json',
    '/%5c..%5csecret.json',
    '//secret.json',
    '/assets/..;/..;/secret.json',
    '/secret.json%00.js',
    '/.sources',
    '/etc/passwd',
    '/assets/main-AbCd1234.js.map',
  ])('%s leads nowhere', async (path) => {
    const got = await s.ask(path)
    expect(got.text).not.toMatch(/secret|root:|not for anyone/)
    if (got.status === 200) expect(got.text).toContain('<title>Germane</title>')
  })

  test('a file that is not there is not there, and other methods are refused', async () => {
    expect((await s.ask('/none.js')).status).toBe(404)
    for (const method of ['PUT', 'TRACE', 'OPTIONS', 'DELETE']) {
      const got = await s.ask('/', { method })
      expect(got.status).toBeGreaterThanOrEqual(400)
      expect(got.headers['access-control-allow-origin']).toBeUndefined()
    }
  })
})

test('what went wrong inside is not told outside', async () => {
  const got = await s.ask('/api/none')
  expect([got.status, JSON.parse(got.text)]).toMatchObject([404, { faults: [{ code: 'usage' }] }])
  expect(got.text).not.toMatch(/\bat \w+|node_modules|\.ts/)
})
