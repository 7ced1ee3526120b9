import fc from 'fast-check'
import { expect, test } from 'vitest'
import { pictureType } from './picture.ts'

const bytes = (text: string): Uint8Array => Uint8Array.from([...text].map((letter) => letter.charCodeAt(0)))

test.each([
  ['\x89PNG\r\n\x1a\n\0\0\0\rIHDR', 'image/png'],
  ['\xff\xd8\xff\xe0', 'image/jpeg'],
  ['\xff\xd8\xff\xdb', 'image/jpeg'],
  ['RIFF\x24\0\0\0WEBPVP8 ', 'image/webp'],
  ['RIFF\x24\0\0\0WEBPVP8L', 'image/webp'],
  ['RIFF\x24\0\0\0WEBPVP8X', 'image/webp'],
])('%j begins a picture: %s', (text, type) => expect(pictureType(bytes(text))).toBe(type))

test.each([
  '',
  '\x89PNG\r\n\x1a\n',
  '\x89PNG\n\n\x1a\n\0\0\0\rIHDR',
  '\xff\xd8',
  'GIF89a',
  'BM',
  'RIFF\x24\0\0\0WAVEfmt ',
  'RIFF\x24\0\0\0WEBP',
  '<svg/>',
  '%PDF-1.7',
])('%j does not', (text) => expect(pictureType(bytes(text))).toBeUndefined())

test('other bytes before a picture make it none', () => {
  fc.assert(
    fc.property(fc.uint8Array({ minLength: 1, maxLength: 8 }), (before) => {
      const png = bytes('\x89PNG\r\n\x1a\n\0\0\0\rIHDR')
      fc.pre(before[0] !== 0xff && before[0] !== 0x89)
      expect(pictureType(Uint8Array.from([...before, ...png]))).toBeUndefined()
    }),
  )
})
