import type { IconName } from '../components/icons'
import type { ReviewState, Subject } from '../desk/review-state'
import type { Mark, Verdict } from '../desk/schema'
import type { Command } from '../generated/Command'
import type { PageState } from '../state'
import type { Key } from './keys'

/** What a command may do to the reviewer's words. */
export interface Reviewer {
  give(verdict: Verdict): void
  addMark(on: Subject, kind: Mark['kind']): void
  takeBack(): void
  giveAgain(): void
  /** Stands the alphabet on the stage, to go through it letter by letter. */
  walk(): void
  /** Keeps the chosen letter in sight. */
  follow(): void
  set(change: Partial<ReviewState>): void
}

/** What a command may have done to the whole font. */
export interface Surveyor {
  /** Measures every letter of it. */
  all(): void
  stop(): void
  /** Saves its measures, measuring it first where that is still to do. */
  save(): void
}

/** What may be given the focus: the line's text, the stage, the note, or the mark that was made last. */
export type Focus = 'text' | 'stage' | 'note' | 'mark'

/** What a command may do to the page. */
export interface Desk {
  readonly state: PageState
  readonly reviewing: Reviewer
  readonly surveying: Surveyor
  /** Asks the stage; a refusal becomes a sentence on the page. */
  apply(command: Command): void
  set(change: Partial<PageState>): void
  pickFile(): void
  openSample(): void
  /** Brings a variable font back to where its axes stood. */
  positionBack(): void
  focus(on: Focus): void
}

export const groups = [
  'Findings',
  'Review',
  'Choose',
  'Move',
  'Compare',
  'Show',
  'Space',
  'View',
  'Calliper',
  'Page',
] as const
export type Group = (typeof groups)[number]

/**
 * One thing that the page can do. Buttons, menus, keys and the list of keys are
 * all made from these records, so that none of them can say something else.
 */
export interface PageCommand {
  readonly id: string
  /** A verb phrase, short enough for a button. */
  readonly label: string
  /** What it does, where the label does not say it all. */
  readonly hint?: string
  readonly group: Group
  readonly keys: readonly Key[]
  readonly icon?: IconName
  /** Keys of the stage's own act only while the stage has the focus: elsewhere, arrows scroll. */
  readonly onStage?: true
  /** Its keys act in the text field too. */
  readonly whileTyping?: true
  /** True if holding the key down repeats it. */
  readonly repeats?: true
  enabled(state: PageState): boolean
  /** For a command that switches: whether it is on. */
  pressed?(state: PageState): boolean
  run(desk: Desk): void
}

export const hasFont = (state: PageState): boolean => state.font !== null && state.stage !== null

export const hasChosen = (state: PageState): boolean =>
  hasFont(state) && (state.stage?.items.some((item) => item.selected) ?? false)
