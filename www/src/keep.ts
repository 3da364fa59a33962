/** The person's few settings, kept by the browser. A browser that keeps nothing is no error. */

import { allowances, usualAllowance } from './findings'
import type { PageState, ThemeChoice } from './state'

export interface Settings {
  readonly theme: ThemeChoice
  readonly singleKeys: boolean
  readonly visited: boolean
  /** False alarms that a sound alphabet may show: how strict the findings are. */
  readonly allowance: number
}

const KEY = 'counterpoise.settings'
const themes: readonly ThemeChoice[] = ['system', 'light', 'dark']

export function readSettings(storage: Pick<Storage, 'getItem'> | undefined): Settings {
  let kept: Partial<Record<keyof Settings, unknown>> = {}
  try {
    const value: unknown = JSON.parse(storage?.getItem(KEY) ?? '{}')
    if (typeof value === 'object' && value !== null) kept = value
  } catch {
    // Another page's writing, or a browser that forbids: start afresh.
  }
  return {
    theme: themes.find((theme) => theme === kept.theme) ?? 'system',
    singleKeys: kept.singleKeys !== false,
    visited: kept.visited === true,
    allowance: allowances.find((one) => one === kept.allowance) ?? usualAllowance,
  }
}

export function keepSettings(storage: Pick<Storage, 'setItem'> | undefined, settings: Settings): void {
  try {
    storage?.setItem(KEY, JSON.stringify(settings))
  } catch {
    // Full or forbidden: the settings last as long as the page.
  }
}

/** What of the page's state is kept. */
type Kept = Pick<PageState, 'theme' | 'singleKeys' | 'allowance' | 'firstVisit'>

/** Keeps the settings where one of them has changed. */
export function keepChanged(
  storage: Pick<Storage, 'setItem'> | undefined,
  { theme, singleKeys, allowance, firstVisit }: Kept,
  before: Kept,
): void {
  if (
    theme !== before.theme ||
    singleKeys !== before.singleKeys ||
    allowance !== before.allowance ||
    firstVisit !== before.firstVisit
  ) {
    keepSettings(storage, { theme, singleKeys, allowance, visited: !firstVisit })
  }
}

/** Where a browser forbids storage, even asking for it throws. */
export function storage(): Storage | undefined {
  try {
    return window.localStorage
  } catch {
    return undefined
  }
}
