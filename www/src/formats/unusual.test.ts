import { expect, it } from 'vitest'
import { isUnusual } from './unusual'

/** A file of a directory alone, and a cmap of these platforms and encodings. */
function file(
  kind: string,
  tags: readonly string[],
  maps: readonly [number, number][] = [[3, 1]],
): Uint8Array {
  const all = ['cmap', ...tags]
  const cmap = 12 + 16 * all.length
  const bytes = new Uint8Array(cmap + 4 + 8 * maps.length)
  const view = new DataView(bytes.buffer)
  const put = (at: number, text: string) => {
    for (const [index, sign] of [...text].entries()) view.setUint8(at + index, sign.charCodeAt(0))
  }
  put(0, kind)
  view.setUint16(4, all.length)
  for (const [index, tag] of all.entries()) {
    put(12 + 16 * index, tag)
    view.setUint32(12 + 16 * index + 8, cmap)
  }
  view.setUint16(cmap + 2, maps.length)
  for (const [index, [platform, encoding]] of maps.entries()) {
    view.setUint16(cmap + 4 + 8 * index, platform)
    view.setUint16(cmap + 6 + 8 * index, encoding)
  }
  return bytes
}

const plain = '\0\x01\0\0'

it('lets plain fonts through, and files that are none', () => {
  expect(isUnusual(file(plain, ['glyf', 'head']))).toBe(false)
  expect(isUnusual(file('OTTO', ['CFF ']))).toBe(false)
  expect(isUnusual(file('%PDF', ['fvar']))).toBe(false)
  expect(isUnusual(new Uint8Array())).toBe(false)
  expect(isUnusual(Uint8Array.of(0, 1, 0, 0, 255))).toBe(false)
})

it('tells packed files, collections, and fonts that vary or have colours', () => {
  for (const kind of ['wOFF', 'wOF2', 'ttcf']) expect(isUnusual(file(kind, []))).toBe(true)
  for (const tag of ['fvar', 'CFF2', 'COLR', 'SVG ', 'CBDT']) expect(isUnusual(file(plain, [tag]))).toBe(true)
})

it('tells fonts whose characters are named in an old way alone', () => {
  expect(isUnusual(file(plain, [], [[3, 0]]))).toBe(true)
  expect(
    isUnusual(
      file(
        plain,
        [],
        [
          [1, 0],
          [3, 0],
        ],
      ),
    ),
  ).toBe(true)
  expect(
    isUnusual(
      file(
        plain,
        [],
        [
          [3, 0],
          [3, 10],
        ],
      ),
    ),
  ).toBe(false)
  expect(isUnusual(file(plain, [], [[0, 3]]))).toBe(false)
})
