import { wordOn } from '../desk/review-state'
import type { Mark, Verdict } from '../desk/schema'
import { findingOnStage, subject } from '../desk/subject'
import { markName, verdictHint, verdictName } from '../desk/words'
import { isSame } from '../findings'
import type { PageState } from '../state'
import { hasFont, type PageCommand } from './command'
import { otherFinding } from './findings'
import type { Key } from './keys'

const canSay = (state: PageState): boolean =>
  hasFont(state) && state.review.font !== '' && subject(state) !== null

/** The key says the word and brings up what is next, so that an alphabet is gone through with one hand. */
function verdict(one: Verdict, key: Key): PageCommand {
  return {
    id: `verdict-${one}`,
    label: verdictName[one],
    hint: `${verdictHint[one]}; the key brings up the next letter or finding`,
    group: 'Review',
    keys: [key],
    enabled: canSay,
    pressed: (state) => {
      const on = subject(state)
      return on !== null && wordOn(state.review, on) === one
    },
    run: (desk) => {
      const { state } = desk
      const on = subject(state)
      // Worked out first: what is meant so leaves the list.
      const next = on?.cause != null && findingOnStage(state) ? otherFinding(state, 1) : undefined
      if (!on) return
      // The key says it, and says it again: only the button takes it back.
      if (wordOn(state.review, on) !== one) desk.reviewing.give(one)
      if (on.cause === null) {
        desk.apply({ type: 'selectNext' })
        desk.reviewing.follow()
      } else if (next && !isSame(next, state.stage?.finding)) {
        desk.apply({ type: 'standFinding', finding: { glyph: next.glyph, cause: next.cause } })
      }
    },
  }
}

function mark(kind: Mark['kind'], key: Key): PageCommand {
  return {
    id: `mark-${kind}`,
    label: markName[kind],
    hint: 'A mark on the letter that goes with your note; drag it, or move it with the arrow keys',
    group: 'Review',
    keys: [key],
    enabled: canSay,
    run: (desk) => {
      const on = subject(desk.state)
      if (!on) return
      desk.reviewing.addMark(on, kind)
      desk.focus('mark')
    },
  }
}

export const review: readonly PageCommand[] = [
  {
    id: 'walk',
    label: 'Go through the alphabet',
    hint: 'Stands every drawn letter on the stage and chooses the first without a word',
    group: 'Review',
    keys: ['Shift+Y'],
    enabled: (state) => hasFont(state) && state.review.font !== '',
    run: (desk) => {
      desk.reviewing.walk()
      desk.focus('stage')
    },
  },
  verdict('settled', 'Y'),
  verdict('redraw', 'W'),
  verdict('again', 'V'),
  verdict('meant', 'O'),
  {
    id: 'note',
    label: 'Write a note',
    hint: 'On the chosen letter, or on the finding; Escape leads back to the stage',
    group: 'Review',
    keys: ['Shift+W'],
    enabled: canSay,
    run: (desk) => desk.focus('note'),
  },
  mark('circle', 'Shift+O'),
  mark('arrow', 'Shift+V'),
  mark('line', 'Shift+I'),
  {
    id: 'take-back',
    label: 'Take back the last word',
    group: 'Review',
    keys: ['Z'],
    icon: 'undo',
    repeats: true,
    enabled: (state) => state.review.back !== null,
    run: (desk) => desk.reviewing.takeBack(),
  },
  {
    id: 'give-again',
    label: 'Give it again',
    group: 'Review',
    keys: ['Shift+Z'],
    icon: 'redo',
    repeats: true,
    enabled: (state) => state.review.again !== null,
    run: (desk) => desk.reviewing.giveAgain(),
  },
  {
    id: 'redraw',
    label: 'Redraw',
    hint: 'Try a change on a letter, or hold a new drawing, a scan or another revision against the font',
    group: 'Review',
    keys: ['Shift+R'],
    icon: 'redraw',
    enabled: hasFont,
    run: (desk) => desk.reviewing.set({ room: 'redraw' }),
  },
  {
    id: 'handback',
    label: 'Sheet',
    hint: 'The page that goes back to the artist: what stands out, your notes, what is still to draw',
    group: 'Review',
    keys: ['Shift+H'],
    icon: 'sheet',
    enabled: (state) => hasFont(state) && state.review.font !== '',
    run: (desk) => desk.reviewing.set({ room: 'handback' }),
  },
  {
    id: 'shelf',
    label: 'Shelf',
    hint: 'Every font under way, and who needs a word today',
    group: 'Review',
    keys: ['Shift+S'],
    icon: 'shelf',
    enabled: (state) => state.phase !== 'starting',
    run: (desk) => desk.reviewing.set({ room: 'shelf' }),
  },
]
