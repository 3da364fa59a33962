/** The open file and the shelf: which font it belongs to, as which revision, and what became of the one before. */

import { everyFinding, usualAllowance } from '../findings'
import type { ContentsReport } from '../generated/ContentsReport'
import type { FindingReport } from '../generated/FindingReport'
import type { FontReport } from '../generated/FontReport'
import { nextTask } from '../tasks'
import { guideName } from '../words'
import { type Fated, fatesOf } from './fate'
import { mergeReviews } from './merge'
import { ALPHABET, type Bench, type Reviewing } from './reviewing'
import {
  type FontRecord,
  now,
  type ReadingRecord,
  type ReviewRecord,
  type RevisionRecord,
  reviewId,
  revisionId,
  today,
} from './schema'
import type { AnyChange, DeskStore } from './store'
import { digest, openFindings, tally } from './tally'

/** A file, as the lab has read it. */
export interface Intake {
  readonly fingerprint: string
  readonly fileName: string
  readonly bytes: ArrayBuffer
  readonly report: FontReport
  readonly findings: readonly FindingReport[]
}

/** A file, and what the shelf keeps of its letters. */
interface Whole extends Pick<ReadingRecord, 'letters' | 'drawings' | 'features'> {
  readonly file: Intake
}

/** What the reviewer says of a font. */
export type Particulars = Pick<
  FontRecord,
  'title' | 'contributor' | 'plan' | 'planned' | 'due' | 'kind' | 'begun' | 'note'
>

/** Letters that a digest is kept of; a face with more is not drawn letter by letter. */
const MOST_LETTERS = 3000

/** Letters that are drawn in one task: some ten milliseconds. */
const AT_ONCE = 100

export class Shelving {
  #file: Intake | null = null
  #contents: ContentsReport | null = null
  /** Of the open file's letters, as far as they were asked for; empty of one that is not drawn. */
  #digests = new Map<string, string>()

  constructor(
    private readonly reviewing: Reviewing,
    private readonly bench: Bench,
  ) {}

  /** Another file lies on the stage: what is still being found out of the one before is of no more use. */
  forget(): void {
    this.#file = null
  }

  /** Finds out where the open file belongs, and what has been said of it. */
  async opened(file: Omit<Intake, 'findings'>): Promise<void> {
    const findings = everyFinding(this.bench.state.judgement)
    if (this.#file?.fingerprint !== file.fingerprint) {
      this.#contents = null
      this.#digests = new Map()
    }
    const own = { ...file, findings }
    this.#file = own
    const store = this.reviewing.store
    if (!store) {
      const letters = await this.#letters('')
      if (this.#file !== own) return
      this.reviewing.take([], { font: file.fingerprint, fingerprint: file.fingerprint, letters })
      return
    }
    const [known] = await store.revisionsOfFile(file.fingerprint)
    const fonts = await store.fonts()
    if (this.#file !== own) return
    const shelved = fonts.find((font) => font.id === known?.font && font.removed === null)
    const same = (font: FontRecord) =>
      font.removed === null && font.family.toLowerCase() === file.report.family.toLowerCase()
    const offer = shelved
      ? null
      : (fonts.filter(same).toSorted((a, b) => b.changed.localeCompare(a.changed))[0] ?? null)
    await this.#settle(shelved ?? null, offer)
  }

  /** Puts the open file on the shelf as a font of its own. */
  async place(particulars: Particulars, keep: boolean): Promise<boolean> {
    const whole = await this.#whole(particulars.planned)
    if (!whole) return false
    const { file } = whole
    const id = file.fingerprint
    const { family } = file.report
    const done = await this.reviewing.write(async (store) => {
      await store.changeAll([
        {
          store: 'fonts',
          id,
          change: (current) => ({ ...(current ?? { id, family }), ...particulars, removed: null }),
        },
        ...intake(whole, id, particulars.planned, await store.reviewsOf(id)),
      ])
      if (keep) await store.keepFile(fileOf(file))
    })
    if (done) await this.refresh()
    return done
  }

  /** Takes in what is said anew of a font on the shelf; its latest revision is counted by the new plan. */
  async amend(id: string, particulars: Particulars): Promise<void> {
    const done = await this.reviewing.write(async (store) => {
      const [revisions, reviews] = await Promise.all([store.revisionsOf(id), store.reviewsOf(id)])
      const latest = revisions.toSorted((a, b) => a.received.localeCompare(b.received)).at(-1)
      const read = latest && (await store.reading(latest.id))
      const own = this.reviewing.state.revision?.id === latest?.id ? this.#file : null
      const changes: AnyChange[] = [
        { store: 'fonts', id, change: (current) => (current ? { ...current, ...particulars } : null) },
      ]
      if (latest && read) {
        const { planned } = particulars
        const whole = own && (await this.#whole(planned))
        const still = whole && whole.file.fingerprint === own.fingerprint
        const letters = still ? whole.letters : read.letters
        const counts = tally(planned || ALPHABET, { letters, findings: read.findings }, reviews)
        changes.push(
          { store: 'revisions', id: latest.id, change: (one) => (one ? { ...one, ...counts } : null) },
          { store: 'readings', id: latest.id, change: (one) => (one ? { ...one, letters } : null) },
        )
      }
      await store.changeAll(changes)
    })
    if (done) await this.refresh()
  }

  /** Takes the open file in as the next revision of a font on the shelf. */
  async takeIn(font: FontRecord, keep: boolean): Promise<boolean> {
    const whole = await this.#whole(font.planned)
    if (!whole) return false
    const { file } = whole
    const done = await this.reviewing.write(async (store) => {
      const said = await store.reviewsOf(file.fingerprint)
      const there = await store.reviewsOf(font.id)
      const own = intake(whole, font.id, font.planned, [...said, ...there])
      await store.changeAll([...own, ...moved(said, font.id)])
      if (keep) await store.keepFile(fileOf(file))
    })
    if (!done) return false
    // It is on the shelf; the review is of the font that has been opened since.
    if (this.#file?.fingerprint !== file.fingerprint) return true
    await this.#settle(font, null)
    await this.holdAgainstEarlier()
    return true
  }

  /** Opens the comparison with the revision before, if its file was kept. */
  async holdAgainstEarlier(): Promise<void> {
    const { earlier } = this.reviewing.state
    const file = earlier && (await this.reviewing.store?.file(earlier))
    if (!file) return
    const bytes = new Uint8Array(file.bytes)
    this.bench.set({ bringing: { kind: 'earlier', name: file.name, bytes } })
    this.reviewing.set({ room: 'redraw' })
  }

  /** The open file is no revision of its font after all. */
  async takeOut(): Promise<void> {
    const { revision, shelved } = this.reviewing.state
    if (!revision || !shelved) return
    const gone = () => undefined
    const done = await this.reviewing.write((store) =>
      store.changeAll([
        { store: 'revisions', id: revision.id, change: gone },
        { store: 'readings', id: revision.id, change: gone },
      ]),
    )
    if (done) await this.#settle(null, shelved)
  }

  /** The sheet has gone out: the revision is answered; or it has not, after all. */
  async answer(answered = true): Promise<void> {
    const { revision } = this.reviewing.state
    if (!revision) return
    const when = answered ? now() : null
    await this.reviewing.write((store) =>
      store.change('revisions', revision.id, (current) => (current ? { ...current, answered: when } : null)),
    )
    await this.refresh()
  }

  /** Looks again at what the store says of the open file. */
  async refresh(): Promise<void> {
    if (this.#file) await this.opened(this.#file)
  }

  declineOffer(): void {
    this.reviewing.set({ offer: null })
  }

  /** What of the shelf changes with each word: how many letters are settled, how many findings open. */
  retold(): AnyChange[] {
    const { revision, shelved, reviews } = this.reviewing.state
    if (!revision || !shelved || !this.#file) return []
    const read = { letters: this.#read(shelved.planned), findings: this.#file.findings }
    const counts = tally(shelved.planned || ALPHABET, read, reviews)
    return [
      {
        store: 'revisions',
        id: revision.id,
        change: (current) => (current ? { ...current, ...counts } : null),
      },
    ]
  }

  async #settle(shelved: FontRecord | null, offer: FontRecord | null): Promise<void> {
    const file = this.#file
    const { store } = this.reviewing
    if (!file || !store) return
    const font = shelved?.id ?? file.fingerprint
    const [reviews, revisions] = await Promise.all([
      store.reviewsOf(font),
      shelved ? store.revisionsOf(font) : Promise.resolve([]),
    ])
    const sorted = revisions.toSorted((a, b) => a.received.localeCompare(b.received))
    const at = sorted.findIndex((one) => one.fingerprint === file.fingerprint)
    const before = sorted[at - 1]
    const fates = await this.#fates(store, before, reviews)
    const kept = before ? await store.file(before.fingerprint) : undefined
    const letters = await this.#letters(shelved?.planned ?? '')
    if (this.#file !== file) return
    this.reviewing.take(reviews, {
      font,
      fingerprint: file.fingerprint,
      shelved,
      offer,
      revision: sorted[at] ?? null,
      number: at + 1,
      earlier: kept?.fingerprint ?? null,
      letters,
      fates,
    })
  }

  async #fates(
    store: DeskStore,
    before: RevisionRecord | undefined,
    reviews: readonly ReviewRecord[],
  ): Promise<readonly Fated[] | null> {
    const read = before && (await store.reading(before.id))
    if (!read || !this.#file) return null
    try {
      return await fatesOf(openFindings(read, reviews), this.#file.findings, usualAllowance)
    } catch (error) {
      // The part of the lab that tells could not be fetched: the review goes on without.
      console.warn(error)
      return null
    }
  }

  /**
   * Digests of what is planned and of what the font has besides. Its letters are drawn some at a time: a face of
   * thousands would hold the page up while its first picture is waited for.
   */
  async #letters(planned: string): Promise<Record<string, string>> {
    const fingerprint = this.#file?.fingerprint
    const unread = this.#text(planned).filter((letter) => !this.#digests.has(letter))
    for (let at = 0; at < unread.length; at += AT_ONCE) {
      if (at > 0) await nextTask()
      if (this.#file?.fingerprint !== fingerprint) break
      const some = unread.slice(at, at + AT_ONCE)
      for (const letter of some) this.#digests.set(letter, '')
      for (const { character, path } of this.bench.drawings(some.join(''))) {
        if (path !== '') this.#digests.set(character, digest(path))
      }
    }
    return this.#read(planned)
  }

  /** Those of them that have been read. */
  #read(planned: string): Record<string, string> {
    const all = this.#text(planned).map((letter) => [letter, this.#digests.get(letter) ?? ''])
    return Object.fromEntries(all.filter(([, own]) => own !== ''))
  }

  /** What is planned, then all that the font has besides: a plan may yet grow. */
  #text(planned: string): string[] {
    this.#contents ??= this.bench.contents()
    const all = new Set([...`${planned || ALPHABET}${this.#contents?.characters ?? ''}`])
    return [...all].slice(0, MOST_LETTERS)
  }

  /** Letters as the open file has them. */
  #drawn(letters: readonly string[]): ReadingRecord['drawings'] {
    const drawings = this.bench.drawings([...new Set(letters)].join(''))
    return Object.fromEntries(drawings.map(({ character, advance, path }) => [character, { advance, path }]))
  }

  /**
   * All that is kept of the open file, read at once; null where there is none, or another has been opened while its
   * letters were read.
   */
  async #whole(planned: string): Promise<Whole | null> {
    const file = this.#file
    if (!file) return null
    const letters = await this.#letters(planned)
    if (this.#file?.fingerprint !== file.fingerprint) return null
    const open = openFindings({ letters, findings: file.findings }, [])
    return {
      file,
      letters,
      drawings: this.#drawn(open.map((one) => one.letter)),
      features: this.#contents?.features ?? [],
    }
  }
}

/** A file's records as a revision of a font. */
function intake(whole: Whole, font: string, planned: string, said: readonly ReviewRecord[]): AnyChange[] {
  const { letters, drawings, features } = whole
  const { fingerprint, fileName, report, findings } = whole.file
  const id = revisionId(font, fingerprint)
  const counts = tally(planned || ALPHABET, { letters, findings }, said)
  const received = now()
  const reading: Omit<ReadingRecord, 'changed' | 'rev'> = {
    id,
    font,
    unitsPerEm: report.unitsPerEm,
    heights: report.guides.flatMap(({ kind, drawn }) =>
      drawn == null ? [] : [{ name: guideName[kind], y: drawn }],
    ),
    letters,
    findings: [...findings],
    drawings,
    features,
  }
  return [
    {
      store: 'revisions',
      id,
      change: (current) => ({
        id,
        font,
        fingerprint,
        fileName,
        received: current?.received ?? received,
        answered: current?.answered ?? null,
        ...counts,
      }),
    },
    { store: 'readings', id, change: () => reading },
  ]
}

const fileOf = ({ fingerprint, fileName, bytes }: Intake) => ({ fingerprint, name: fileName, bytes })

/** Words about a file become words about the font that it belongs to. */
function moved(said: readonly ReviewRecord[], font: string): AnyChange[] {
  return said.flatMap((one): AnyChange[] => {
    const id = reviewId(font, one.letter, one.cause)
    if (id === one.id) return []
    const own = { ...one, id, font }
    return [
      { store: 'reviews', id, change: (current) => (current ? mergeReviews(current, own) : own) },
      { store: 'reviews', id: one.id, change: () => undefined },
    ]
  })
}

/** A font's particulars where nothing has been said yet. */
export const blankParticulars = (title: string, contributor: string): Particulars => ({
  title,
  contributor,
  plan: { languages: ['en'], sets: [], text: '' },
  planned: '',
  due: null,
  kind: 'plain',
  begun: today(),
  note: '',
})
