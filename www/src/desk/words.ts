/** What the desk says, in plain words. */

import { many } from '../figures'
import type { Mark, Verdict } from './schema'

export const verdicts: readonly Verdict[] = ['settled', 'redraw', 'again', 'meant']

export const verdictName: Record<Verdict, string> = {
  settled: 'Settled',
  redraw: 'Redraw',
  again: 'Look again',
  meant: 'Meant so',
}

/** What each asks of whom. */
export const verdictHint: Record<Verdict, string> = {
  settled: 'Good as it stands',
  redraw: 'The artist is to draw it anew',
  again: 'Not decided: to be looked at once more',
  meant: 'It stands out on purpose',
}

/** A shape each beside the word, so that colour need not tell them apart. */
export const verdictSign: Record<Verdict, string> = { settled: '✓', redraw: '↻', again: '?', meant: '◇' }

export const markName: Record<Mark['kind'], string> = { circle: 'Circle', arrow: 'Arrow', line: 'Line' }

const dayFormat = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
})

/** "14 Mar 2026" of a day or an instant. */
export function dayWords(when: string | Date): string {
  const date = typeof when === 'string' ? new Date(when) : when
  return Number.isNaN(date.getTime()) ? '–' : dayFormat.format(date)
}

const MINUTE = 60_000
export const DAY = 24 * 60 * MINUTE

/** Whole days from one instant or day to another. */
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(to.slice(0, 10)) - Date.parse(from.slice(0, 10))) / DAY)

/** "today", "yesterday", "3 days ago", "2 weeks ago". */
export function agoWords(days: number): string {
  if (days <= 0) return 'today'
  if (days === 1) return 'yesterday'
  return `${spanWords(days)} ago`
}

/** "1 day", "12 days", "3 weeks", "5 months": as exactly as anyone would say it. */
export function spanWords(days: number): string {
  const whole = Math.max(0, Math.round(days))
  if (whole < 14) return many(whole, 'day')
  if (whole < 70) return many(Math.round(whole / 7), 'week')
  if (whole < 700) return many(Math.round(whole / 30.4), 'month')
  return many(Math.round(whole / 365), 'year')
}

const units = ['B', 'KB', 'MB', 'GB'] as const

/** "340 KB", "12.4 MB". */
export function sizeWords(bytes: number): string {
  let value = bytes
  let at = 0
  while (value >= 1000 && at < units.length - 1) {
    value /= 1000
    at += 1
  }
  return `${value < 10 && at > 0 ? value.toFixed(1) : Math.round(value)} ${units[at]}`
}
