/** Numbers of each glyph as the shaper gives them: glyph, character, advance, right, up. */
const NUMBERS = 5

/**
 * The pairs of a line, each with what kerning adds between the two: the line as
 * it is set with kerning against the line without. Where kerning is not all that
 * changed, as where other glyphs were put in, nothing is said.
 */
export function kernsOf(
  kerned: ArrayLike<number>,
  plain: ArrayLike<number>,
): [left: number, right: number, apart: number][] {
  if (kerned.length !== plain.length) return []
  const pairs = new Map<string, [number, number, number]>()
  const at = (of: ArrayLike<number>, index: number): number => of[index] ?? 0
  for (let i = 0; i + NUMBERS < kerned.length; i += NUMBERS) {
    const next = i + NUMBERS
    const [left, right] = [at(kerned, i), at(kerned, next)]
    if (left !== at(plain, i) || right !== at(plain, next)) continue
    const more = (offset: number): number => at(kerned, offset) - at(plain, offset)
    const apart = more(i + 2) + more(next + 3) - more(i + 3)
    if (apart !== 0) pairs.set(`${left} ${right}`, [left, right, apart])
  }
  return [...pairs.values()]
}
