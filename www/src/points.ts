import type { JudgementReport } from './generated/JudgementReport'
import type { LetterReport } from './generated/LetterReport'
import type { PointCount } from './generated/PointCount'

/** How many points the judged letters have and need; null until all of them have been measured. */
export function pointsOf(
  { letters }: JudgementReport,
  measured: ReadonlyMap<number, LetterReport | null>,
): PointCount[] | null {
  if (!letters.every(({ glyph }) => measured.has(glyph))) return null
  return letters.flatMap(({ letter, glyph }) => {
    const drawing = measured.get(glyph)?.drawing
    return drawing ? [{ letter, points: drawing.drawn, needed: drawing.withinHalf.points }] : []
  })
}
