/** Runs, and glyphs timed at once: those of `surveyed` in tests/benches/whole_font.rs, the same work natively. */
const runs = 5
const handful = 50

/**
 * Microseconds a glyph that the worker's survey of a whole font takes: the best
 * that each handful of glyphs took, added up. Node and the browser both run this.
 */
export function timeFont(Survey, bytes, name) {
  const least = []
  let glyphs = 0
  for (let run = 0; run < runs; run += 1) {
    const survey = new Survey(bytes, name)
    for (let index = 0, more = true; more; index += 1) {
      const start = performance.now()
      more = survey.measure(handful)
      const took = performance.now() - start
      // As the worker does between slices: what is written is not to pile up.
      if (survey.take().length === 0) throw new Error('nothing was written')
      least[index] = Math.min(took, least[index] ?? Infinity)
    }
    const { done, total } = survey.progress()
    if (done !== total || total === 0) throw new Error(`${done} of ${total} glyphs`)
    glyphs = total
    survey.free()
  }
  return (least.reduce((sum, ms) => sum + ms, 0) * 1000) / glyphs
}
