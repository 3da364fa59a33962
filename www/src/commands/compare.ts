import type { Alignment } from '../generated/Alignment'
import { hasChosen, type PageCommand } from './command'
import type { Key } from './keys'

function align(by: Alignment, label: string, key: Key, icon: NonNullable<PageCommand['icon']>): PageCommand {
  return {
    id: `align-${by}`,
    label,
    hint: 'Lays the chosen letters over the pinned one, or over the first chosen',
    group: 'Compare',
    keys: [key],
    icon,
    enabled: hasChosen,
    run: (desk) => desk.apply({ type: 'align', by }),
  }
}

const chosenAll = (flag: 'pinned' | 'mirrored' | 'turned'): NonNullable<PageCommand['pressed']> => {
  return (state) => {
    const chosen = state.stage?.items.filter((item) => item.selected) ?? []
    return chosen.length > 0 && chosen.every((item) => item[flag])
  }
}

const isPinned = chosenAll('pinned')

export const compare: readonly PageCommand[] = [
  {
    id: 'pin',
    label: 'Pin',
    hint: 'A pinned letter stays where it is, and the others line up with it',
    group: 'Compare',
    keys: ['P'],
    icon: 'pin',
    enabled: hasChosen,
    pressed: isPinned,
    run: (desk) => desk.apply({ type: 'pin', pinned: !isPinned(desk.state) }),
  },
  {
    id: 'mirror',
    label: 'Mirror',
    hint: 'Left to right, about the middle of the ink',
    group: 'Compare',
    keys: ['M'],
    icon: 'mirror',
    enabled: hasChosen,
    pressed: chosenAll('mirrored'),
    run: (desk) => desk.apply({ type: 'mirror' }),
  },
  {
    id: 'turn',
    label: 'Upside down',
    hint: 'Turns the chosen letters by 180 degrees',
    group: 'Compare',
    keys: ['U'],
    icon: 'turn',
    enabled: hasChosen,
    pressed: chosenAll('turned'),
    run: (desk) => desk.apply({ type: 'turn' }),
  },
  align('leftEdge', 'Line up left edges', 'L', 'align-left'),
  align('stemLeft', 'Line up left sides of stems', 'S', 'align-stem-left'),
  align('stemCentre', 'Line up middles of stems', 'T', 'align-stem'),
  align('inkCentre', 'Line up middles of the ink', 'I', 'align-centre'),
  align('rightEdge', 'Line up right edges', 'E', 'align-right'),
]
