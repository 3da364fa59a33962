import { hasFont, type PageCommand } from './command'

const NO_GUIDE = 'The guide could not be fetched; try again later.'
const NO_WORDS = 'The words of the trade could not be fetched; try again later.'

export const page: readonly PageCommand[] = [
  {
    id: 'open',
    label: 'Open a font',
    hint: 'From this computer; it stays on this computer',
    group: 'Page',
    keys: ['Mod+O'],
    whileTyping: true,
    icon: 'open',
    enabled: (state) => state.phase === 'ready',
    run: (desk) => desk.pickFile(),
  },
  {
    id: 'sample',
    label: 'Open the sample',
    group: 'Page',
    keys: [],
    enabled: (state) => state.phase === 'ready' && !state.font?.sample,
    run: (desk) => desk.openSample(),
  },
  {
    id: 'measure-all',
    label: 'Measure all',
    hint: 'Every glyph of the font, beside the work on the stage',
    group: 'Page',
    keys: ['G'],
    enabled: (state) => hasFont(state) && state.survey.kind !== 'measuring' && state.survey.kind !== 'done',
    run: (desk) => desk.surveying.all(),
  },
  {
    id: 'stop-measuring',
    label: 'Stop measuring',
    hint: 'Gives up measuring the whole font; the stage is not touched',
    group: 'Page',
    keys: ['Shift+G'],
    icon: 'close',
    enabled: (state) => state.survey.kind === 'measuring',
    run: (desk) => desk.surveying.stop(),
  },
  {
    id: 'save-measures',
    label: 'Save measures',
    hint: 'Every measure of every glyph as one JSON file, once all are measured',
    group: 'Page',
    keys: ['Mod+S'],
    whileTyping: true,
    icon: 'save',
    enabled: (state) => hasFont(state) && !state.saving,
    run: (desk) => desk.surveying.save(),
  },
  {
    id: 'edit-text',
    label: 'Write in the line',
    group: 'Page',
    keys: ['/'],
    enabled: hasFont,
    run: (desk) => desk.focus('text'),
  },
  {
    id: 'browse',
    label: 'All letters',
    hint: 'Browse every letter of the font, find one by character, name, code point or block, and stand it here',
    group: 'Page',
    keys: ['*'],
    icon: 'browse',
    enabled: hasFont,
    run: (desk) => desk.reviewing.set({ room: 'browse' }),
  },
  {
    id: 'undo',
    label: 'Undo',
    group: 'Page',
    keys: ['Mod+Z'],
    icon: 'undo',
    repeats: true,
    enabled: (state) =>
      (state.stage?.undo != null || (state.parcel?.before.length ?? 0) > 0) && !state.stage?.inGesture,
    // A move of an axis sets the letters anew, so it comes before all that was done to them.
    run: (desk) => (desk.state.stage?.undo != null ? desk.apply({ type: 'undo' }) : desk.positionBack()),
  },
  {
    id: 'redo',
    label: 'Redo',
    group: 'Page',
    keys: ['Mod+Shift+Z', 'Mod+Y'],
    icon: 'redo',
    repeats: true,
    enabled: (state) => state.stage?.redo != null && !state.stage.inGesture,
    run: (desk) => desk.apply({ type: 'redo' }),
  },
  {
    id: 'lessons',
    label: 'Lessons',
    hint: 'Why even is not equal, shown on this font and tried on your own eye',
    group: 'Page',
    keys: ['Shift+M'],
    icon: 'lessons',
    enabled: hasFont,
    run: (desk) => desk.reviewing.set({ room: 'lessons' }),
  },
  {
    id: 'guide',
    label: 'Try a first review',
    hint: 'Seven steps on the sample, some 90 seconds; to be left and gone on with at any time',
    group: 'Page',
    keys: [],
    enabled: (state) => hasFont(state) && !state.guide,
    run: (desk) => {
      const lost = () => desk.set({ remark: NO_GUIDE })
      import('../guide/review-guide').then(({ begin }) => begin(), lost)
    },
  },
  {
    id: 'word',
    label: 'What is that?',
    hint: 'What the trade words of a label mean, drawn from this font',
    group: 'Page',
    keys: ['Shift+Q'],
    icon: 'word',
    enabled: hasFont,
    run: (desk) => {
      const lost = () => desk.set({ remark: NO_WORDS })
      import('../lessons/look-up').then(({ lookUp }) => lookUp(), lost)
    },
  },
  {
    id: 'keys',
    label: 'Keys',
    hint: 'Every command and its key',
    group: 'Page',
    keys: ['?'],
    icon: 'keys',
    enabled: () => true,
    pressed: (state) => state.keyHelp,
    run: (desk) => desk.set({ keyHelp: !desk.state.keyHelp }),
  },
]
