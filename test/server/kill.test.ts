import { createServer } from 'node:net'
import { describe, expect, test } from 'vitest'
import { ApiUnreachable, apiClient } from '#api'
import { checkBook, closeBook, openBook, readings } from '#book'
import { germane, within } from '../cli/germane.ts'

const g = germane()

interface Served {
  readonly url: string
  readonly port: number
  readonly pid: number
  /** How it ended, within reasonable time. */
  readonly ended: () => Promise<{ code: number | null; out: string; err: string }>
  readonly kill: (signal: NodeJS.Signals) => void
}

/** Starts `germane serve` and waits until it says where it is. */
async function serve(args: readonly string[] = []): Promise<Served> {
  const talk = g.start(['serve', '--port', '0', '--json', ...args])
  let text = ''
  talk.child.stdout?.on('data', (more: string) => {
    text += more
  })
  await talk.until('"pairingCode"')
  await expect.poll(() => text.endsWith('}\n')).toBe(true)
  const { url, port } = JSON.parse(text) as { url: string; port: number }
  const ended = () => within(talk.ended, () => 'the end of the server')
  return { url, port, pid: talk.child.pid!, ended, kill: (signal) => void talk.child.kill(signal) }
}

describe('kill -9', () => {
  test('at any moment: each reading that was acknowledged is in the book, and the page goes on where it was', async () => {
    let life = await serve(['--book', 'kill.germane'])
    const { run } = await apiClient(life.url).startRun({ tester: 'larkfield', type: '2N1305' })
    const acknowledged = new Map<string, string>()
    let sent = 0
    for (let lives = 0; lives < 4; lives++) {
      const api = apiClient(life.url)
      const last = acknowledged.size + 10
      for (;;) {
        // killed while later ones are under way, each life at another moment of them
        if (acknowledged.size === last) setTimeout(() => life.kill('SIGKILL'), 3 * lives)
        const clientId = `reading-${sent}`
        const body = { clientId, part: `K-${sent}`, reads: 'h_FE', range: 'middle', seen: String(60 + (sent % 90)) }
        try {
          await api.addReading(run.id, body)
        } catch (error) {
          expect(error).toBeInstanceOf(ApiUnreachable)
          break
        }
        acknowledged.set(body.part, body.seen)
        sent++
      }
      expect(await life.ended()).toMatchObject({ code: null })
      life = await serve(['--book', 'kill.germane'])
    }
    expect(acknowledged.size).toBeGreaterThanOrEqual(40)
    const api = apiClient(life.url)
    // the one under way when it was killed is sent again, whether it had been taken or not
    await api.addReading(run.id, {
      clientId: `reading-${sent}`,
      part: `K-${sent}`,
      reads: 'h_FE',
      range: 'middle',
      seen: String(60 + (sent % 90)),
    })
    const kept = (await api.run(run.id)).readings.map((one) => [one.reading.part, one.reading.seen])
    expect(new Set(kept.map(([part]) => part)).size).toBe(kept.length)
    expect(new Map(kept as [string, string][])).toEqual(
      new Map([...acknowledged, [`K-${sent}`, String(60 + (sent % 90))]]),
    )
    life.kill('SIGTERM')
    expect((await life.ended()).code).toBe(0)
    const book = await openBook(g.path('kill.germane'))
    expect((await checkBook(book)).findings).toEqual([])
    await closeBook(book)
  })
})

describe('serve', () => {
  test.each(['SIGINT', 'SIGTERM'] as const)('closes the book on %s, also while windows listen', async (signal) => {
    const life = await serve(['--book', `${signal}.germane`, '--open-demo'])
    const stop = new AbortController()
    await fetch(`${life.url}/api/events`, { signal: stop.signal })
    expect((await apiClient(life.url).bookSummary()).isDemo).toBe(true)
    const began = performance.now()
    life.kill(signal)
    expect(await life.ended()).toMatchObject({ code: 0, err: '' })
    expect(performance.now() - began).toBeLessThan(5000)
    stop.abort()
    const { code } = await g.run(['book', 'check', '--book', `${signal}.germane`])
    expect(code).toBe(0)
    const book = await openBook(g.path(`${signal}.germane`))
    expect((await readings(book)).length).toBeGreaterThan(50)
    await closeBook(book)
  })

  test('leaves a book with something in it as it is', async () => {
    expect((await g.run(['book', 'fill', '--parts', '3', '--seed', '2', '--book', 'own.germane'])).code).toBe(0)
    const life = await serve(['--book', 'own.germane', '--open-demo'])
    expect(await apiClient(life.url).bookSummary()).toMatchObject({ isDemo: false, parts: 3 })
    life.kill('SIGTERM')
    expect((await life.ended()).code).toBe(0)
  })

  test('says where it is and that only this computer can reach it', async () => {
    const talk = g.start(['serve', '--port', '0', '--book', 'said.germane'])
    await talk.until('Ctrl+C stops it')
    talk.child.kill('SIGTERM')
    const { out, err } = await within(talk.ended, () => 'the end of the server')
    expect(out).toMatch(/^Germane is at http:\/\/127\.0\.0\.1:\d+\nOnly this computer can reach it\.\n/)
    expect(err).toBe('')
  })

  test('says loudly what --lan does, with the code', async () => {
    const talk = g.start(['serve', '--lan', '--port', '0', '--book', 'lan.germane'])
    await talk.until('Ctrl+C stops it')
    talk.child.kill('SIGTERM')
    const { out } = await within(talk.ended, () => 'the end of the server')
    expect(out).toContain('*** OPEN TO YOUR LOCAL NETWORK ***')
    expect(out).toMatch(/give the pairing code \d{4} \d{4}\n/)
  })

  test('says which port is taken and what to do, and does not make a mess', async () => {
    const other = createServer()
    await new Promise<void>((keep) => other.listen(0, '127.0.0.1', keep))
    const { port } = other.address() as { port: number }
    const said = await g.run(['serve', '--port', String(port), '--book', 'taken.germane'])
    other.close()
    expect(said).toMatchObject({ code: 2, out: '' })
    expect(said.err).toBe(
      `Port ${port} is used by another program, perhaps by Germane in another window. Close that one, or take another port: germane serve --port 0 finds a free one.\n`,
    )
  })

  test.each([
    [['--port', 'http'], '--port: "http" is no port. Write a whole number from 0 to 65535, such as 4747.'],
    [['--port', '70000'], '--port: "70000" is no port.'],
    [['--book', 'no/such/folder.germane'], 'its folder does not exist'],
  ])('refuses %j with a sentence', async (args, sentence) => {
    const said = await g.run(['serve', ...args])
    expect([said.code, said.out]).toEqual([2, ''])
    expect(said.err).toContain(sentence)
  })
})
