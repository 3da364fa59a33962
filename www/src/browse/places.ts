/**
 * Places that lines stand in while they are in view. A line keeps its place as
 * long as it stays; one that comes takes the place of one that has left, and
 * with it its canvas: to make canvases and let them go costs more than all else,
 * and the browser's clearing up after them holds the page up.
 */
export class Places {
  /** What stands in each place; null where what stood there has left. */
  #taken: (number | null)[] = []

  /** The place of each that is in view now. */
  seat(inView: readonly number[]): readonly number[] {
    const staying = new Set(inView)
    this.#taken = this.#taken.map((one) => (one !== null && staying.has(one) ? one : null))
    const known = new Map(this.#taken.map((one, place) => [one, place]))
    let free = 0
    return inView.map((one) => {
      const kept = known.get(one)
      if (kept !== undefined) return kept
      while (free < this.#taken.length && this.#taken[free] !== null) free += 1
      this.#taken[free] = one
      return free
    })
  }

  /** Places that wait for whatever comes into view next. */
  get free(): readonly number[] {
    return this.#taken.flatMap((one, place) => (one === null ? [place] : []))
  }
}
