import { hasChosen, hasFont, type PageCommand } from './command'
import type { Key } from './keys'

/** Four presses double the size. */
const ZOOM_STEP = 2 ** (1 / 4)

/** CSS pixels a press: a good part of a letter at common sizes, never a whole view. */
const PAN_STEP = 120

function pan(id: string, label: string, key: Key, dx: number, dy: number): PageCommand {
  return {
    id,
    label,
    group: 'View',
    keys: [key],
    icon: id as 'pan-left' | 'pan-right' | 'pan-up' | 'pan-down',
    onStage: true,
    repeats: true,
    enabled: hasFont,
    run: (desk) => desk.apply({ type: 'pan', dx, dy }),
  }
}

export const view: readonly PageCommand[] = [
  {
    id: 'zoom-out',
    label: 'Farther',
    group: 'View',
    keys: ['-'],
    icon: 'minus',
    repeats: true,
    enabled: hasFont,
    run: (desk) => desk.apply({ type: 'zoom', factor: 1 / ZOOM_STEP }),
  },
  {
    id: 'zoom-in',
    label: 'Nearer',
    group: 'View',
    keys: ['+', '='],
    icon: 'plus',
    repeats: true,
    enabled: hasFont,
    run: (desk) => desk.apply({ type: 'zoom', factor: ZOOM_STEP }),
  },
  {
    id: 'fit',
    label: 'Whole line',
    group: 'View',
    keys: ['0'],
    icon: 'fit',
    enabled: hasFont,
    pressed: (state) => state.stage?.view.fitted ?? false,
    run: (desk) => desk.apply({ type: 'fit' }),
  },
  {
    id: 'fit-chosen',
    label: 'Chosen letters',
    hint: 'Shows the chosen letters as large as they go',
    group: 'View',
    keys: ['9'],
    icon: 'fit-chosen',
    enabled: hasChosen,
    run: (desk) => desk.apply({ type: 'fitChosen' }),
  },
  pan('pan-left', 'See more on the left', 'PageUp', PAN_STEP, 0),
  pan('pan-right', 'See more on the right', 'PageDown', -PAN_STEP, 0),
  pan('pan-up', 'See more above', 'Shift+PageUp', 0, PAN_STEP),
  pan('pan-down', 'See more below', 'Shift+PageDown', 0, -PAN_STEP),
]
