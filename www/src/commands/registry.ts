import { calliper } from './calliper'
import { choose } from './choose'
import type { Desk, PageCommand } from './command'
import { compare } from './compare'
import { findings } from './findings'
import { isSingle, type Key, type Press, readings } from './keys'
import { move } from './move'
import { page } from './page'
import { review } from './review'
import { show } from './show'
import { space } from './space'
import { view } from './view'

/** Every command, in the order in which the list of keys shows them. */
export const commands: readonly PageCommand[] = [
  ...findings,
  ...review,
  ...choose,
  ...move,
  ...compare,
  ...show,
  ...space,
  ...view,
  ...calliper,
  ...page,
]

/** The commands by their id; refuses two of one id. */
export function byId(list: readonly PageCommand[]): ReadonlyMap<string, PageCommand> {
  const map = new Map<string, PageCommand>()
  for (const command of list) {
    if (map.has(command.id)) throw new Error(`Two commands are called ${command.id}`)
    map.set(command.id, command)
  }
  return map
}

/** The commands by their key; refuses two on one key. */
export function byKey(list: readonly PageCommand[]): ReadonlyMap<Key, PageCommand> {
  const map = new Map<Key, PageCommand>()
  for (const command of list) {
    for (const key of command.keys) {
      const other = map.get(key)
      if (other) throw new Error(`${key} is the key of both ${other.id} and ${command.id}`)
      map.set(key, command)
    }
  }
  return map
}

const ids = byId(commands)
const keys = byKey(commands)

export function command(id: string): PageCommand {
  const found = ids.get(id)
  if (!found) throw new Error(`No command is called ${id}`)
  return found
}

/** Where a key was pressed. */
export interface Place {
  /** In a field that takes text. */
  readonly typing: boolean
  readonly onStage: boolean
}

/** The command that a press gives; undefined if it gives none there. */
export function commandFor(press: Press, place: Place, singleKeys: boolean): PageCommand | undefined {
  for (const key of readings(press)) {
    const found = keys.get(key)
    if (!found) continue
    if (found.onStage && !place.onStage) continue
    if (place.typing && !found.whileTyping) continue
    if (isSingle(key) && !singleKeys) continue
    return found
  }
  return undefined
}

/** Runs a command if it can be run now. True if it was. */
export function give(id: string, desk: Desk): boolean {
  const found = command(id)
  if (!found.enabled(desk.state)) return false
  found.run(desk)
  return true
}
