import { nextTask } from './tasks'

/**
 * Who draws when: a font's first picture goes before what stands beside the stage, and what took long before what
 * is to be shown of it. Together they would hold the page up.
 */
export class Turns {
  #picture: (() => void) | null = null
  #beside: Promise<void> = Promise.resolve()

  constructor() {
    this.awaitPicture()
  }

  /** Fulfilled when what stands beside the stage may be drawn. */
  get beside(): Promise<void> {
    return this.#beside
  }

  /** A font's first picture comes before all else. */
  awaitPicture(): void {
    if (this.#picture !== null) return
    this.#beside = new Promise((resolve) => {
      this.#picture = resolve
    })
  }

  /** The first picture is there, or none will come. */
  pictured(): void {
    this.#picture?.()
    this.#picture = null
  }

  /** What ran now took long: what is shown of it has a task of its own. */
  tookLong(): void {
    if (this.#picture === null) this.#beside = nextTask()
  }
}
