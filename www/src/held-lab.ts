/** The lab as the page holds it: on its canvas, and set up anew after its module has crashed. */

import type { Theme } from './generated/Theme'
import type { Lab } from './lab'
import { isRefusal } from './refusal'

/** What the page does for its lab. */
export interface Holder {
  make(): Lab
  /** Puts back what stood on a lab that has crashed; it throws where that cannot be done. */
  restore(lab: Lab): void
  /** What the lab will not do, in a sentence. */
  refused(sentence: string): void
  /** It has crashed, and works again. */
  mended(): void
  /** It cannot be set up, or not again: nothing can be drawn any more. */
  broken(): void
}

export class HeldLab {
  #lab: Lab | undefined
  #canvas: HTMLCanvasElement | undefined
  #size: readonly [width: number, height: number, ratio: number] = [1, 1, 1]
  #theme: Theme | undefined

  constructor(private readonly holder: Holder) {}

  /** Of the canvas, in CSS pixels. */
  get width(): number {
    return this.#size[0]
  }

  /** Sets a lab up on a canvas, once its module is there. */
  stand(canvas: HTMLCanvasElement): void {
    this.#canvas = canvas
    this.#build(canvas)
  }

  setTheme(theme: Theme): void {
    this.#theme = theme
    this.tell((lab) => lab.setTheme(theme))
  }

  /** CSS pixels, and how many of the canvas's there are to one. */
  resize(width: number, height: number, ratio: number): void {
    this.#size = [width, height, ratio]
    this.tell((lab) => lab.resize(width, height, ratio))
  }

  /** What the lab answers; null before there is one. It throws what the lab refuses, and a crash once that is mended. */
  demand<T>(question: (lab: Lab) => T): T | null {
    if (!this.#lab) return null
    try {
      return question(this.#lab)
    } catch (error) {
      if (!isRefusal(error)) this.#mend(error)
      throw error
    }
  }

  /** Has the lab do something. What it will not do is told; after a crash it is mended, and what was asked not done. */
  tell(act: (lab: Lab) => void): void {
    try {
      this.demand(act)
    } catch (error) {
      if (isRefusal(error)) this.holder.refused(error.sentence)
    }
  }

  /** What the lab answers; null where it cannot. After a crash it is mended, and asked once more. */
  ask<T>(question: (lab: Lab) => T, again = true): T | null {
    try {
      return this.demand(question)
    } catch (error) {
      return again && !isRefusal(error) ? this.ask(question, false) : null
    }
  }

  /** Works no more, since what it needs cannot be had. */
  giveUp(error: unknown): void {
    console.error(error)
    this.#lab = undefined
    this.holder.broken()
  }

  #build(canvas: HTMLCanvasElement): Lab {
    const lab = this.holder.make()
    lab.attach(canvas)
    if (this.#theme) lab.setTheme(this.#theme)
    lab.resize(...this.#size)
    this.#lab = lab
    return lab
  }

  /** After a crash inside the module, what it held cannot be trusted: another lab takes its place. */
  #mend(error: unknown): void {
    console.error(error)
    try {
      if (!this.#canvas) throw error
      this.holder.restore(this.#build(this.#canvas))
      this.holder.mended()
    } catch (again) {
      this.giveUp(again)
    }
  }
}
