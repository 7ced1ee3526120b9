import type { Photo } from '#book'

/** Largest picture kept, bytes. */
export const largestPicture = 8 * 1024 * 1024

const begins = (content: Uint8Array, at: number, bytes: readonly number[]): boolean =>
  bytes.every((byte, i) => content[at + i] === byte)

const letters = (text: string): readonly number[] => [...text].map((letter) => letter.charCodeAt(0))

/**
 * What kind of picture begins with these bytes; undefined for anything else.
 *
 * PNG: the 8-byte signature and the IHDR chunk (W3C PNG, 5.2 and 11.2.1). JPEG: SOI and the next marker (ITU-T T.81, B.1).
 * WebP: RIFF container with the form WEBP and a VP8 chunk (RFC 9649, 2.4).
 */
export function pictureType(content: Uint8Array): Photo['type'] | undefined {
  if (begins(content, 0, [0x89, ...letters('PNG\r\n'), 0x1a, 0x0a]) && begins(content, 12, letters('IHDR')))
    return 'image/png'
  if (begins(content, 0, [0xff, 0xd8, 0xff])) return 'image/jpeg'
  if (begins(content, 0, letters('RIFF')) && begins(content, 8, letters('WEBPVP8'))) return 'image/webp'
  return undefined
}
