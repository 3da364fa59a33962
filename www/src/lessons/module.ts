/** Lessons on the open font: fetched when their room is first entered. */

import init, { Lessons } from '../core/counterpoise_lessons.js'
import address from '../core/counterpoise_lessons_bg.wasm?url'
import { once } from '../once'

export type { Lessons }

const ready = once(() => init({ module_or_path: fetch(address) }))

export async function openLessons(bytes: Uint8Array): Promise<Lessons> {
  await ready()
  return new Lessons(bytes, 0)
}
