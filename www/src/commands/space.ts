import type { Spacing } from '../generated/Spacing'
import { controlStrings } from '../spacing'
import type { PageState } from '../state'
import { setTestWords } from '../test-line'
import { hasFont, type PageCommand } from './command'
import type { Key } from './keys'

/** One key shows the line another way, and the same key the font's own again. */
function spacing(name: Spacing, label: string, hint: string, key: Key): PageCommand {
  return {
    id: `space-${name}`,
    label,
    hint,
    group: 'Space',
    keys: [key],
    enabled: (state) => hasFont(state) && (name !== 'suggested' || state.spacing.kind === 'done'),
    pressed: (state) => state.stage?.spacing === name,
    run: (desk) =>
      desk.apply({ type: 'setSpacing', spacing: desk.state.stage?.spacing === name ? 'bearings' : name }),
  }
}

/** The characters that are chosen, in the line's order. */
const chosen = (state: PageState): string[] =>
  state.stage?.items.flatMap((item) => (item.selected && item.character ? [item.character] : [])) ?? []

export const space: readonly PageCommand[] = [
  spacing('kerned', 'Kerning', 'Sets the line with the font’s own kerning', 'Shift+K'),
  spacing(
    'suggested',
    'As suggested',
    'Sets the line by the suggested side bearings and kerns; once more for the font’s own',
    'Shift+T',
  ),
  {
    id: 'control-strings',
    label: 'Control strings',
    hint: 'Stands what is chosen between H and O, or n and o, as bearings are judged',
    group: 'Space',
    keys: ['Shift+E'],
    enabled: (state) => chosen(state).length > 0,
    run: (desk) => desk.apply({ type: 'setText', text: controlStrings(chosen(desk.state)) }),
  },
  {
    id: 'test-words',
    label: 'Words for the pairs',
    hint: 'Sets words that hold the pairs most in need of a look',
    group: 'Space',
    keys: ['Shift+P'],
    enabled: (state) => state.spacing.kind === 'done',
    run: (desk) => void setTestWords(desk),
  },
]
