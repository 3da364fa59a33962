/** Lessons on the open font: fetched when their room is first entered. */

import init, { Lessons } from '../core/counterpoise_lessons.js'
import address from '../core/counterpoise_lessons_bg.wasm?url'

export type { Lessons }

let ready: Promise<unknown> | undefined

export async function openLessons(bytes: Uint8Array): Promise<Lessons> {
  ready ??= init({ module_or_path: fetch(address) })
  try {
    await ready
  } catch (error) {
    // What could not be fetched once may be another time.
    ready = undefined
    throw error
  }
  return new Lessons(bytes, 0)
}
