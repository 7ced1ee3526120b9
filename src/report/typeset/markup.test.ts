import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { escapeText, html, joined, trusted } from './markup.ts'

describe('html', () => {
  test('escapes what is put in, and keeps what is markup', () =>
    expect(html`<p title="${'a"b'}">${"<b> & '"}${html`<i>x</i>`}</p>`.markup).toBe(
      '<p title="a&quot;b">&lt;b&gt; &amp; &#39;<i>x</i></p>',
    ))

  test('leaves out nothing, no and not-there, and writes a nought', () =>
    expect(html`[${undefined}${null}${false}${''}${0}]`.markup).toBe('[0]'))

  test('joins lists', () =>
    expect([html`${['<', html`<br>`, 2]}`.markup, joined(['a', 'b'], '<').markup, trusted('<hr>').markup]).toEqual([
      '&lt;<br>2',
      'a&lt;b',
      '<hr>',
    ]))

  test('no text, whatever it is, can open a tag, end an attribute or hold an unprintable character', () =>
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string()), (text) => {
        const safe = escapeText(text)
        expect(safe).not.toMatch(/[<>"']/)
        expect(safe.replace(/&(amp|lt|gt|quot|#39);/g, '')).not.toContain('&')
        // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not be there
        expect(safe).not.toMatch(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]/)
        expect(() => encodeURIComponent(safe)).not.toThrow()
      }),
      { numRuns: 2000 },
    ))

  test('lone halves of a surrogate pair become a replacement mark, whole pairs stay', () =>
    expect([escapeText('a\ud800b'), escapeText('\udc00'), escapeText('\u{1f50b}')]).toEqual([
      'a\ufffdb',
      '\ufffd',
      '\u{1f50b}',
    ]))
})
