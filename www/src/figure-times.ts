/**
 * While something is dragged, the figures beside the stage follow this often, in milliseconds: nobody reads faster,
 * and each reading costs a layout that would be taken from the picture's own time.
 */
const FIGURES_EVERY = 100

/** When the stage's state is read again for the figures beside it. */
export class FigureTimes {
  /** Null if nothing has changed since it was read. */
  #due: number | null = null
  #read = 0
  #later: ReturnType<typeof setTimeout> | undefined

  /** Takes what asks for another frame. */
  constructor(private readonly again: () => void) {}

  /** The stage has changed: at once, or in one of a drag's many steps. */
  changed(dragged: boolean): void {
    const due = dragged ? this.#read + FIGURES_EVERY : 0
    this.#due = Math.min(due, this.#due ?? due)
  }

  /** Whether it is to be read with this frame; where that is too early yet, another is asked for. */
  isDue(): boolean {
    if (this.#due === null) return false
    const now = performance.now()
    if (now < this.#due) {
      clearTimeout(this.#later)
      this.#later = setTimeout(this.again, this.#due - now)
      return false
    }
    this.#due = null
    this.#read = now
    return true
  }
}
