import { describe, expect, it } from 'vitest'
import { ariaKeys, caps, isSingle, type Press, readings } from './keys'

const press = (key: string, code = '', held: Partial<Press> = {}): Press => ({
  key,
  code,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...held,
})

describe('how a press is read', () => {
  it.each([
    ['a letter', press('m', 'KeyM'), ['M']],
    ['a capital', press('M', 'KeyM', { shiftKey: true }), ['Shift+M']],
    ['an arrow with Shift', press('ArrowLeft', 'ArrowLeft', { shiftKey: true }), ['Shift+ArrowLeft']],
    ['a sign that needs Shift', press('?', 'Slash', { shiftKey: true }), ['?']],
    ['the space bar', press(' ', 'Space'), ['Space']],
    ['undo', press('z', 'KeyZ', { ctrlKey: true }), ['Mod+Z']],
    ['a Greek letter by its place', press('μ', 'KeyM'), ['μ', 'M']],
    ['a French figure by its place', press('&', 'Digit1'), ['&', '1']],
    ['nothing with the other system’s modifier', press('z', 'KeyZ', { metaKey: true }), []],
  ])('%s', (_, given, expected) => {
    expect(readings(given, false)).toEqual(expected)
  })

  it('takes Command for Control on Apple keyboards', () => {
    expect(readings(press('z', 'KeyZ', { metaKey: true }), true)).toEqual(['Mod+Z'])
    expect(readings(press('z', 'KeyZ', { ctrlKey: true }), true)).toEqual([])
  })
})

it('tells keys that type from keys that do not', () => {
  expect(['M', 'Shift+M', '?', '+', '0', 'Space'].every(isSingle)).toBe(true)
  expect(['Mod+Z', 'ArrowLeft', 'Shift+ArrowLeft', 'Escape', 'F1'].some(isSingle)).toBe(false)
})

it('prints caps', () => {
  expect(caps('Mod+Shift+Z', false)).toEqual(['Ctrl', 'Shift', 'Z'])
  expect(caps('Mod+Z', true)).toEqual(['⌘', 'Z'])
  expect(caps('+', false)).toEqual(['+'])
  expect(caps('-', false)).toEqual(['−'])
  expect(caps('Shift+ArrowLeft', false)).toEqual(['Shift', '←'])
})

it('writes keys for assistive technology', () => {
  expect(ariaKeys(['Mod+Shift+Z', 'Mod+Y'], false)).toBe('Control+Shift+Z Control+Y')
  expect(ariaKeys(['+', '='], false)).toBe('Plus =')
})
