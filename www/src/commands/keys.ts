/**
 * Keys are written as people read them: modifiers first, joined by plus signs,
 * `Mod` for Control (Command on Apple's keyboards): "Mod+Shift+Z", "ArrowLeft",
 * "?". A character that needs Shift on some keyboard is written without it.
 */
export type Key = string

export interface Press {
  readonly key: string
  readonly code: string
  readonly ctrlKey: boolean
  readonly metaKey: boolean
  readonly altKey: boolean
  readonly shiftKey: boolean
}

const isApple = (platform: string): boolean => /mac|iphone|ipad/i.test(platform)

export const applePlatform: boolean = typeof navigator !== 'undefined' && isApple(navigator.platform)

/**
 * How a press may be written, likeliest first. The second reading takes the
 * key's place on the keyboard: Greek or Cyrillic keyboards have no M, French
 * ones no unshifted 1, and the commands must be within reach there too.
 */
export function readings(press: Press, apple = applePlatform): Key[] {
  const mod = apple ? press.metaKey : press.ctrlKey
  const stray = apple ? press.ctrlKey : press.metaKey
  if (stray) return []
  const found: Key[] = []
  const add = (name: string, shift: boolean) => {
    const key = `${mod ? 'Mod+' : ''}${press.altKey ? 'Alt+' : ''}${shift ? 'Shift+' : ''}${name}`
    if (!found.includes(key)) found.push(key)
  }
  if ([...press.key].length > 1) add(press.key, press.shiftKey)
  else if (press.key === ' ') add('Space', press.shiftKey)
  else if (/^[a-z]$/i.test(press.key)) add(press.key.toUpperCase(), press.shiftKey)
  else add(press.key, false)
  const place = /^(?:Key|Digit)([A-Z0-9])$/.exec(press.code)?.[1]
  if (place !== undefined && !/^[a-z0-9]$/i.test(press.key)) add(place, press.shiftKey)
  return found
}

/** True for a key that types something: such keys can be switched off. */
export function isSingle(key: Key): boolean {
  return /^(?:Shift\+)?(?:.|Space)$/u.test(key)
}

const names: Record<string, string> = {
  ArrowLeft: '←',
  ArrowRight: '→',
  ArrowUp: '↑',
  ArrowDown: '↓',
  Escape: 'Esc',
  Delete: 'Del',
  PageUp: 'Page up',
  PageDown: 'Page down',
}

/** The caps to print for a key, one string a cap. */
export function caps(key: Key, apple = applePlatform): string[] {
  const parts = key === '+' ? ['+'] : key.split(/\+(?=.)/u)
  return parts.map((part) => {
    if (part === 'Mod') return apple ? '⌘' : 'Ctrl'
    if (part === 'Alt') return apple ? '⌥' : 'Alt'
    if (part === '-') return '−'
    return names[part] ?? part
  })
}

/** The form that `aria-keyshortcuts` takes. */
export function ariaKeys(keys: readonly Key[], apple = applePlatform): string {
  return keys.map((key) => (key === '+' ? 'Plus' : key.replace('Mod', apple ? 'Meta' : 'Control'))).join(' ')
}
