import type { Step } from '../generated/Step'
import type { PageState } from '../state'
import { hasChosen, hasFont, type PageCommand } from './command'
import type { Key } from './keys'

const holdsCalliper = (state: PageState): boolean => state.stage?.tool === 'calliper'

/** Arrow keys move what is in hand: the calliper, or else the chosen letters. */
function sideways(
  id: string,
  label: string,
  key: Key,
  steps: 1 | -1,
  step: Step,
  icon?: PageCommand['icon'],
) {
  const command: PageCommand = {
    id,
    label,
    group: 'Move',
    keys: [key],
    ...(icon && { icon }),
    onStage: true,
    repeats: true,
    enabled: (state) => (holdsCalliper(state) ? hasFont(state) : hasChosen(state)),
    run: (desk) =>
      desk.apply(
        holdsCalliper(desk.state)
          ? { type: 'moveCalliper', part: desk.state.calliperPart, right: steps, up: 0, step }
          : { type: 'nudge', steps, step },
      ),
  }
  return command
}

function upright(id: string, label: string, key: Key, up: 1 | -1, step: Step, icon?: PageCommand['icon']) {
  const command: PageCommand = {
    id,
    label,
    group: 'Calliper',
    keys: [key],
    ...(icon && { icon }),
    onStage: true,
    repeats: true,
    enabled: (state) => holdsCalliper(state) && hasFont(state),
    run: (desk) => desk.apply({ type: 'moveCalliper', part: desk.state.calliperPart, right: 0, up, step }),
  }
  return command
}

export const move: readonly PageCommand[] = [
  sideways('left', 'Left by 1 unit', 'ArrowLeft', -1, 'unit', 'left'),
  sideways('right', 'Right by 1 unit', 'ArrowRight', 1, 'unit', 'right'),
  sideways('left-ten', 'Left by 10 units', 'Shift+ArrowLeft', -1, 'tenUnits', 'left-ten'),
  sideways('right-ten', 'Right by 10 units', 'Shift+ArrowRight', 1, 'tenUnits', 'right-ten'),
  sideways('left-far', 'Left by a tenth of the em', 'Mod+ArrowLeft', -1, 'tenthEm'),
  sideways('right-far', 'Right by a tenth of the em', 'Mod+ArrowRight', 1, 'tenthEm'),
  {
    id: 'reset-places',
    label: 'Back in line',
    hint: 'Stands the chosen letters, or all of them, in their own places again, upright and unmirrored',
    group: 'Move',
    keys: ['H'],
    icon: 'home',
    enabled: hasFont,
    run: (desk) => desk.apply({ type: 'resetPlaces' }),
  },
  upright('up', 'Calliper up by 1 unit', 'ArrowUp', 1, 'unit', 'up'),
  upright('down', 'Calliper down by 1 unit', 'ArrowDown', -1, 'unit', 'down'),
  upright('up-ten', 'Calliper up by 10 units', 'Shift+ArrowUp', 1, 'tenUnits'),
  upright('down-ten', 'Calliper down by 10 units', 'Shift+ArrowDown', -1, 'tenUnits'),
]
