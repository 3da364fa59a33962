/** Text set by the open font's own rules: kerned, and from right to left. */

import { NO_KERNING, NO_READING } from './sentences'
import { Shapers } from './shapers'
import type { Shaper } from './shaping'
import type { Source } from './source'
import type { PageState } from './state'

/** Characters of scripts that are written from right to left, by the ranges that Unicode keeps for them. */
const LEFTWARDS = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefe\u{10800}-\u{10fff}\u{1e800}-\u{1efff}]/u

/** What the setting of text needs of the page. */
export interface Host {
  state(): PageState
  remark(sentence: string): void
  source(): Source | undefined
  /** The open font's file, as a shaper reads it. */
  file: () => Uint8Array
  /** Takes what the font's kerning adds between the letters of the line. */
  kern(pairs: [left: number, right: number, apart: number][]): void
  /** Takes what tells of a line how it is read. */
  read(reader: Shaper['read']): void
}

export class TextSetting {
  readonly #shapers = new Shapers()
  /** The font by whose rules the stage reads lines from right to left. */
  #reading: Source | undefined

  constructor(private readonly host: Host) {}

  /** The stage has been set up anew, and reads by no font's rules. */
  forget(): void {
    this.#reading = undefined
  }

  /** The line, or how it is spaced, has changed. */
  follow(): void {
    void this.readLine()
    void this.#kern()
  }

  /** Sets the line with the font's own kerning, as a shaping library applies it. */
  async #kern(): Promise<void> {
    const source = this.host.source()
    if (!source || this.host.state().stage?.spacing !== 'kerned') return
    try {
      const shaper = await this.#shapers.of(source, this.host.file)
      const pairs = shaper?.kerns(this.host.state().stage?.text ?? '')
      if (pairs && this.host.source() === source) this.host.kern(pairs)
    } catch (error) {
      console.error(error)
      this.host.remark(NO_KERNING)
    }
  }

  /** Letters that are read from right to left stand so, once there is what reads them. */
  async readLine(): Promise<void> {
    const source = this.host.source()
    if (!source || this.#reading === source || !LEFTWARDS.test(this.host.state().stage?.text ?? '')) return
    this.#reading = source
    try {
      const shaper = await this.#shapers.of(source, this.host.file)
      if (shaper && this.host.source() === source) this.host.read(shaper.read)
    } catch (error) {
      console.error(error)
      if (this.#reading === source) this.#reading = undefined
      this.host.remark(NO_READING)
    }
  }
}
