/** The optical rules in words. */

import { NONE, percent } from './figures'
import type { Rule } from './generated/Rule'
import type { Stance } from './generated/Stance'

export const ruleName: Record<Rule, string> = {
  roundPastFlat: 'Rounds pass the line of flats',
  pointPastRound: 'Points pass it further',
  barsThinner: 'Bars beside stems',
  roundsHeavier: 'Rounds beside stems, at their thickest',
  manyStrokesThinner: 'Strokes of M W m w & beside others',
  evenDarkness: 'Darkness of M W m w & beside others',
}

export const stanceMark: Record<Stance, string> = { keeps: '✓', without: '○', against: '↔', unknown: '–' }

export const stanceWords: Record<Stance, string> = {
  keeps: 'The font does as the rule says',
  without: 'The font does without: that is its habit',
  against: 'The font does the contrary: that is its habit',
  unknown: 'Too few letters to show a habit',
}

/** "1.6%" of the height, or "82%" of what it is held beside. */
export const ruleValue = (value: number | null): string => (value == null ? NONE : percent(value))
