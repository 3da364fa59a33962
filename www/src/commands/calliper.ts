import type { CalliperPart } from '../generated/CalliperPart'
import type { PageState } from '../state'
import { hasFont, type PageCommand } from './command'

const parts: readonly CalliperPart[] = ['whole', 'from', 'to']

const lies = (state: PageState): boolean => hasFont(state) && state.stage?.calliper != null

export const calliper: readonly PageCommand[] = [
  {
    id: 'calliper',
    label: 'Calliper',
    hint: 'Drag it across the letters: it reads every stretch of ink and of white that it crosses',
    group: 'Calliper',
    keys: ['C'],
    icon: 'calliper',
    enabled: hasFont,
    pressed: (state) => state.stage?.tool === 'calliper',
    run: (desk) =>
      desk.apply({ type: 'setTool', tool: desk.state.stage?.tool === 'calliper' ? 'letters' : 'calliper' }),
  },
  {
    id: 'calliper-lay',
    label: 'Lay it across',
    hint: 'Lays the calliper across the chosen letters, or all, at half the x-height',
    group: 'Calliper',
    keys: ['Shift+C'],
    enabled: (state) => hasFont(state) && state.stage?.calliper == null,
    run: (desk) => {
      // With no calliper on the stage, moving it lays it.
      desk.apply({ type: 'moveCalliper', part: 'whole', right: 0, up: 0, step: 'unit' })
      desk.apply({ type: 'setTool', tool: 'calliper' })
    },
  },
  {
    id: 'calliper-level',
    label: 'Level',
    group: 'Calliper',
    keys: ['Shift+L'],
    enabled: lies,
    run: (desk) => desk.apply({ type: 'turnCalliper', to: 'level' }),
  },
  {
    id: 'calliper-upright',
    label: 'Upright',
    group: 'Calliper',
    keys: ['Shift+U'],
    enabled: lies,
    run: (desk) => desk.apply({ type: 'turnCalliper', to: 'upright' }),
  },
  {
    id: 'calliper-part',
    label: 'Move its other end, or the whole',
    group: 'Calliper',
    keys: ['X'],
    enabled: lies,
    run: (desk) => {
      const next = parts[(parts.indexOf(desk.state.calliperPart) + 1) % parts.length] ?? 'whole'
      desk.set({ calliperPart: next })
    },
  },
  {
    id: 'calliper-lift',
    label: 'Take it away',
    group: 'Calliper',
    keys: ['Shift+X'],
    icon: 'remove',
    enabled: lies,
    run: (desk) => {
      desk.apply({ type: 'liftCalliper' })
      desk.apply({ type: 'setTool', tool: 'letters' })
    },
  },
]
