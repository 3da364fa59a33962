import type { Layer } from '../generated/Layer'
import { hasFont, type PageCommand } from './command'
import type { Key } from './keys'

function layer(name: Layer, label: string, hint: string, key: Key): PageCommand {
  return {
    id: `show-${name}`,
    label,
    hint,
    group: 'Show',
    keys: [key],
    enabled: hasFont,
    pressed: (state) => state.stage?.layers[name] ?? false,
    run: (desk) => desk.apply({ type: 'showLayer', layer: name, shown: !desk.state.stage?.layers[name] }),
  }
}

/** The blur that joins strokes into the grey of a word: about a third of a stem in text faces. */
const BLUR_SHARE = 0.08

/** Sizes of continuous reading on screen and paper, in CSS pixels: 9, 12 and 18 points. */
const READING_SIZES = [12, 16, 24]

export const show: readonly PageCommand[] = [
  layer('fill', 'Ink', 'The letters filled', '1'),
  layer('outline', 'Outline', 'The letters’ contours', '2'),
  layer('points', 'Points', 'The contours’ points and handles', '3'),
  layer('strokes', 'Strokes', 'Every stroke with its thickness written on it', '4'),
  layer('guides', 'Guides', 'Baseline, x-height, cap height, ascender, descender, and overshoot bands', '5'),
  layer('strip', 'Deviations', 'Under each letter, how it differs from what the others make one expect', '6'),
  layer('overshoot', 'Overshoot', 'How far each top and foot passes its guide, or falls short of it', '7'),
  layer(
    'widths',
    'Widths',
    'Brackets under each letter: counter, outer stems, ink with bearings, advance',
    '8',
  ),
  layer('refit', 'Refit', 'The same letter in the fewest points, and the points that it does without', 'F'),
  {
    id: 'refit-two',
    label: 'Refit within 2 units',
    hint: 'Lets the refit stray two units from the outline, not half a unit (at 1000 units per em)',
    group: 'Show',
    keys: ['Shift+F'],
    enabled: (state) => hasFont(state) && (state.stage?.layers.refit ?? false),
    pressed: (state) => state.stage?.refitWithin === 'two',
    run: (desk) =>
      desk.apply({ type: 'setRefit', within: desk.state.stage?.refitWithin === 'two' ? 'half' : 'two' }),
  },
  layer(
    'flaws',
    'Flaws',
    'Kinks, stubs, missing extremes and other slips of drawing, each at its place',
    'K',
  ),
  layer(
    'texture',
    'Texture',
    'The line as a blurred eye sees it, with the letter that stands out',
    'Shift+B',
  ),
  layer(
    'findings',
    'Finding',
    'What was measured and what was expected of the letter whose finding stands on the stage',
    'Q',
  ),
  layer(
    'white',
    'White',
    'The white between the letters, and the pairs that break the line’s rhythm',
    'Shift+D',
  ),
  {
    id: 'blur',
    label: 'Blur',
    hint: 'Blurs the ink, as half-closed eyes do: dark letters stand out',
    group: 'Show',
    keys: ['B'],
    enabled: hasFont,
    pressed: (state) => (state.stage?.blur ?? 0) > 0,
    run: (desk) => desk.apply({ type: 'setBlur', share: desk.state.stage?.blur ? 0 : BLUR_SHARE }),
  },
  {
    id: 'reading',
    label: 'Reading',
    hint: 'Sets the line again at 12, 16 and 24 pixels',
    group: 'Show',
    keys: ['R'],
    enabled: hasFont,
    pressed: (state) => (state.stage?.reading.length ?? 0) > 0,
    run: (desk) =>
      desk.apply({ type: 'setReading', sizes: desk.state.stage?.reading.length ? [] : READING_SIZES }),
  },
]
