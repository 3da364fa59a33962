/** The words of the redraw. */

import type { ChangeKind } from '../generated/ChangeKind'
import type { FindingFate } from '../generated/FindingFate'
import type { GlyphEntry } from '../generated/GlyphEntry'

export const changeName: Record<ChangeKind, string> = {
  shape: 'Shape',
  spacing: 'Spacing alone',
  points: 'Points alone',
  trouble: 'Readable in one alone',
}

/** A shape beside the word, so that a list can be run down with the eye. */
export const fateMark: Record<FindingFate, string> = {
  settled: '✓',
  better: '↘',
  same: '=',
  worse: '↗',
  new: '+',
}

/** What a glyph is called on screen. */
export const glyphName = ({ character, name, glyph }: GlyphEntry): string =>
  character?.trim() ? character : (name ?? `glyph ${glyph}`)
