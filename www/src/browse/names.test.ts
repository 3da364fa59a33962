import { expect, it } from 'vitest'
import { text } from '../../build/names.mjs'

/** The text read back, as the module of all letters reads it. */
function read(): Map<number, string> {
  const names = new Map<number, string>()
  let code = 0
  for (const line of text().split('\n')) {
    if (line.startsWith('@')) code = Number.parseInt(line.slice(1), 16)
    else {
      names.set(code, line)
      code += 1
    }
  }
  return names
}

// UnicodeData.txt of the Unicode Character Database, from memory.
it('calls characters what the Unicode Standard does', () => {
  const names = read()
  expect(names.get(0x41)).toBe('latin capital letter a')
  expect(names.get(0x105)).toBe('latin small letter a with ogonek')
  expect(names.get(0x3042)).toBe('hiragana letter a')
  expect(names.get(0x2190)).toBe('leftwards arrow')
  expect(names.get(0xffe6)).toBe('fullwidth won sign')
  expect(names.get(0x1f600)).toBe('grinning face')
  // Corrected in the standard's NameAliases.txt.
  expect(names.get(0x1a2)).toBe('latin capital letter gha')
})

it('leaves out names that are no more than the code point', () => {
  const names = read()
  for (const code of [0x4e00, 0xac00, 0x20000, 0xe000, 0xf900, 0xd800, 0x378]) {
    expect(names.has(code), code.toString(16)).toBe(false)
  }
  // Of some 160,000 characters (from memory), but for ideographs and syllables.
  expect(names.size).toBeGreaterThan(33_000)
  expect(names.size).toBeLessThan(40_000)
})
