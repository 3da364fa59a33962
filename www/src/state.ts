import { initialReview, type ReviewState } from './desk/review-state'
import { type Judgement, usualAllowance } from './findings'
import type { Parcel } from './formats/parcel'
import type { CalliperPart } from './generated/CalliperPart'
import type { FontReport } from './generated/FontReport'
import type { MeantSo } from './generated/MeantSo'
import type { RulesReport } from './generated/RulesReport'
import type { StageState } from './generated/StageState'
import type { Bringing } from './redraw/brought'
import type { SpacingState, SurveyState } from './worker/measurer'

export type ThemeChoice = 'system' | 'light' | 'dark'

/** The font on the stage. */
export interface OpenFont {
  readonly report: FontReport
  readonly fileName: string
  /** CSS family under which the browser shows it; null where the browser refuses the file. */
  readonly face: string | null
  /** True for the sample that comes with the page. */
  readonly sample: boolean
}

/** Something to tell the person beside the file's line. */
export interface Notice {
  readonly kind: 'refused' | 'told'
  /** What it is about; empty if about no file. */
  readonly fileName: string
  readonly sentence: string
}

export interface PageState {
  readonly phase: 'starting' | 'ready' | 'broken'
  readonly font: OpenFont | null
  /** What the open font was made of, if its file was no plain font. */
  readonly parcel: Parcel | null
  /** Name of the file that is being opened. */
  readonly opening: string | null
  readonly notice: Notice | null
  readonly stage: StageState | null
  /** How far the whole font has been measured. */
  readonly survey: SurveyState
  /** How far its spacing and kerning have been read. */
  readonly spacing: SpacingState
  /** The measures are to be saved as soon as they are there. */
  readonly saving: boolean
  /** What stands out of the font. */
  readonly judgement: Judgement
  /** False alarms that a sound alphabet may show: how strict the findings are. */
  readonly allowance: number
  /** What the person has said is meant so in this font. */
  readonly meant: readonly MeantSo[]
  /** How the font keeps the optical rules; null until that is read. */
  readonly rules: RulesReport | null
  /** The reviewer's words about the font, and where they are kept. */
  readonly review: ReviewState
  /** What is brought to be held against the font: a drawing, a scan, another revision. */
  readonly bringing: Bringing | null
  /** Why the stage would not do what was last asked of it. */
  readonly remark: string | null
  /** What of the calliper the arrow keys and the arrow buttons move. */
  readonly calliperPart: CalliperPart
  readonly theme: ThemeChoice
  /** Whether keys without Control or Command give commands (WCAG 2.1.4 asks for the choice). */
  readonly singleKeys: boolean
  readonly firstVisit: boolean
  readonly keyHelp: boolean
  /** The guide through a first review stands beside the findings. */
  readonly guide: boolean
  /** A file hangs over the page. */
  readonly dropping: boolean
}

export const initialState: PageState = {
  phase: 'starting',
  font: null,
  parcel: null,
  opening: null,
  notice: null,
  stage: null,
  survey: { kind: 'none' },
  spacing: { kind: 'none' },
  saving: false,
  judgement: { kind: 'none' },
  allowance: usualAllowance,
  meant: [],
  rules: null,
  review: initialReview,
  bringing: null,
  remark: null,
  calliperPart: 'whole',
  theme: 'system',
  singleKeys: true,
  firstVisit: false,
  keyHelp: false,
  guide: false,
  dropping: false,
}

export type Listener = (state: PageState, before: PageState) => void

/** The page's state: replaced as a whole, never changed in place. */
export class Store {
  #state: PageState
  readonly #listeners = new Set<Listener>()

  constructor(state: PageState = initialState) {
    this.#state = state
  }

  get state(): PageState {
    return this.#state
  }

  set(change: Partial<PageState>): void {
    const before = this.#state
    const next = { ...before, ...change }
    if ((Object.keys(change) as (keyof PageState)[]).every((key) => before[key] === next[key])) return
    this.#state = next
    for (const listener of [...this.#listeners]) listener(next, before)
  }

  subscribe(listener: Listener): () => void {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }
}
