/**
 * Outlines that were asked for as their lines came into view, and kept as long
 * as there is room: those not looked at for the longest go first.
 */

import type { Drawing } from '../core/counterpoise_browse.js'

/** An outline as the page holds it. */
export interface Outline<Path> {
  readonly name: string | null
  /** Null if it cannot be drawn, undefined without ink. */
  readonly path: Path | null | undefined
  readonly ink: readonly [number, number]
}

/** Outlines held: some windows full of letters. */
const MOST = 4000
/** Signs of path data held, all together: about as many bytes. */
const MOST_SIGNS = 6_000_000
/** Outlines asked for at once: few, so that those just come into view are not kept waiting. */
const AT_ONCE = 64

export class Outlines<Path> {
  readonly #held = new Map<number, { readonly outline: Outline<Path>; readonly signs: number }>()
  #signs = 0
  #wanted: number[] = []
  #asking = false
  /** Grows with each that comes. */
  version = 0

  constructor(
    private readonly draw: (glyphs: Uint16Array) => Promise<readonly Drawing[]>,
    private readonly make: (path: string) => Path,
    /** Hears that some have come, or why they cannot. */
    private readonly came: (error?: unknown) => void,
  ) {}

  get size(): number {
    return this.#held.size
  }

  /** The outline of a glyph, if it has come. */
  of(glyph: number): Outline<Path> | undefined {
    const one = this.#held.get(glyph)
    if (!one) return undefined
    // The last of the map is the last that was looked at.
    this.#held.delete(glyph)
    this.#held.set(glyph, one)
    return one.outline
  }

  /** The same without its being looked at. */
  peek(glyph: number): Outline<Path> | undefined {
    return this.#held.get(glyph)?.outline
  }

  /** Says which are in view now; what was wanted before and has not come is wanted no more. */
  want(glyphs: Iterable<number>): void {
    this.#wanted = [...new Set(glyphs)].filter((glyph) => !this.#held.has(glyph))
    if (!this.#asking) void this.#ask()
  }

  async #ask(): Promise<void> {
    this.#asking = true
    try {
      while (this.#wanted.length > 0) {
        const glyphs = this.#wanted.splice(0, AT_ONCE)
        const drawings = await this.draw(Uint16Array.from(glyphs))
        for (const [index, glyph] of glyphs.entries()) this.#keep(glyph, drawings[index])
        this.#wanted = this.#wanted.filter((glyph) => !this.#held.has(glyph))
        this.version += 1
        this.came()
      }
    } catch (error) {
      this.#wanted = []
      this.came(error)
    } finally {
      this.#asking = false
    }
  }

  #keep(glyph: number, drawing: Drawing | undefined): void {
    const { name = null, path = null, ink = [0, 0] as const } = drawing ?? {}
    const made = path === null ? null : path === '' ? undefined : this.make(path)
    const signs = path?.length ?? 0
    this.#held.set(glyph, { outline: { name, path: made, ink }, signs })
    this.#signs += signs
    for (const [old, one] of this.#held) {
      // The newest stays, however large: it would be asked for again at once.
      const room = this.#held.size <= MOST && this.#signs <= MOST_SIGNS
      if (room || old === glyph) break
      this.#held.delete(old)
      this.#signs -= one.signs
    }
  }
}
