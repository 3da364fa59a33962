/** The lines of text that are one press away. */

import type { FontReport } from './generated/FontReport'

export interface QuickText {
  readonly label: string
  readonly name: string
  readonly text: string
  /** Made of small letters: of no use in a font without any. */
  readonly small: boolean
}

const capitals = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'

export const quickTexts: readonly QuickText[] = [
  { label: 'A–Z', name: 'All capitals', text: capitals, small: false },
  { label: 'a–z', name: 'All lower case', text: capitals.toLowerCase(), small: true },
  { label: '0–9', name: 'Figures', text: '0123456789', small: false },
  {
    label: 'Pangram',
    name: 'A sentence with every letter',
    text: 'Sphinx of black quartz, judge my vow',
    small: true,
  },
  // Straight beside straight, straight beside round, round beside round.
  { label: 'HHOHOO', name: 'Control string of capitals', text: 'HHOHOO', small: false },
  { label: 'nnonoo', name: 'Control string of lower case', text: 'nnonoo', small: true },
]

export const hasSmallLetters = (report: FontReport): boolean =>
  report.guides.some((guide) => guide.kind === 'xHeight' && guide.drawn != null)

/** A line as this font can set it. */
export function textFor(report: FontReport, quick: { text: string; small: boolean }): string {
  return quick.small && !hasSmallLetters(report) ? quick.text.toUpperCase() : quick.text
}
