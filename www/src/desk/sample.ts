/**
 * An example shelf: contributors, faces and histories invented for it, so that
 * anyone can see what a shelf with work on it looks like. Its records' ids begin
 * with {@link EXAMPLE}, by which it is taken away again.
 */

import { charactersOf } from './plan'
import { type FontRecord, type Plan, type ReadingRecord, type RevisionRecord, revisionId } from './schema'
import type { DeskStore } from './store'
import { DAY } from './words'

export const EXAMPLE = 'example-'

interface Story {
  readonly title: string
  readonly contributor: string
  readonly plan: Plan
  readonly kind: FontRecord['kind']
  readonly note: string
  /** Days ago. */
  readonly begun: number
  /** Days from now; null if none was agreed. */
  readonly due: number | null
  /** Each revision: days ago, shares drawn and settled, open findings; the last may wait for its answer. */
  readonly revisions: readonly (readonly [ago: number, drawn: number, settled: number, open: number])[]
  readonly waits: boolean
}

const west: Plan = { languages: ['en', 'fr', 'pt'], sets: [], text: '' }

const stories: readonly Story[] = [
  {
    title: 'Marrowbone',
    contributor: 'Ottoline Fenwick, Hobart',
    plan: west,
    kind: 'ornamented',
    note: 'Circus capitals with an inline. She draws at weekends.',
    begun: 260,
    due: 45,
    revisions: [
      [226, 0.2, 0.08, 19],
      [170, 0.37, 0.22, 16],
      [121, 0.52, 0.35, 15],
      [64, 0.71, 0.55, 11],
      [3, 0.83, 0.66, 9],
    ],
    waits: true,
  },
  {
    title: 'Tidewrack',
    contributor: 'Teodor Bălan, Galați',
    plan: { languages: ['ro', 'hu', 'en'], sets: ['iso-8859-2'], text: '' },
    kind: 'plain',
    note: 'Ship names, painted. Commas below, not cedillas.',
    begun: 75,
    due: -6,
    revisions: [
      [58, 0.4, 0.2, 14],
      [41, 0.64, 0.41, 12],
      [20, 0.86, 0.63, 7],
    ],
    waits: false,
  },
  {
    title: 'Linnet Script',
    contributor: 'Amparo Iriarte, Oaxaca',
    plan: { languages: ['es', 'en'], sets: [], text: '¶☞' },
    kind: 'plain',
    note: '',
    begun: 49,
    due: 30,
    revisions: [
      [40, 0.35, 0.25, 8],
      [27, 0.6, 0.5, 6],
      [13, 0.84, 0.77, 4],
    ],
    waits: false,
  },
  {
    title: 'Hornbeam',
    contributor: 'Kaspar Vinter, Tórshavn',
    plan: { languages: ['fo', 'is', 'da', 'en'], sets: ['iso-8859-15'], text: '' },
    kind: 'plain',
    note: 'Has a farm; nothing comes at lambing time.',
    begun: 190,
    due: null,
    revisions: [
      [171, 0.3, 0.12, 11],
      [150, 0.45, 0.3, 9],
    ],
    waits: false,
  },
  {
    title: 'Saltmarsh',
    contributor: 'Nkechi Adeyemi-Strand, Lagos',
    plan: { languages: ['yo', 'ig', 'ha', 'en'], sets: [], text: '' },
    kind: 'plain',
    note: 'First face. Dots below are hers to place, not the program’s.',
    begun: 12,
    due: 60,
    revisions: [[1, 0.31, 0.17, 21]],
    waits: true,
  },
  {
    title: 'Tollgate',
    contributor: 'Wim Achterberg, Zwolle',
    plan: { languages: ['nl', 'en'], sets: [], text: '' },
    kind: 'plain',
    note: '',
    begun: 130,
    due: -20,
    revisions: [
      [101, 0.5, 0.3, 10],
      [72, 0.8, 0.6, 6],
      [51, 0.97, 0.85, 3],
      [27, 1, 1, 0],
    ],
    waits: false,
  },
]

const records = (at: number) => ({ changed: new Date(at).toISOString(), rev: 1 })

/** The example's records, as if today were the day. */
export function example(today: number): {
  fonts: FontRecord[]
  revisions: RevisionRecord[]
  readings: ReadingRecord[]
} {
  const ago = (days: number): string => new Date(today - days * DAY).toISOString()
  const fonts: FontRecord[] = []
  const revisions: RevisionRecord[] = []
  const readings: ReadingRecord[] = []
  for (const [number, story] of stories.entries()) {
    const id = `${EXAMPLE}${number + 1}`
    const planned = charactersOf(story.plan)
    const all = [...planned]
    fonts.push({
      ...records(today),
      id,
      family: story.title,
      title: story.title,
      contributor: story.contributor,
      plan: story.plan,
      planned,
      due: story.due === null ? null : ago(-story.due).slice(0, 10),
      kind: story.kind,
      begun: ago(story.begun).slice(0, 10),
      note: story.note,
      removed: null,
    })
    for (const [at, [days, drawn, settled, open]] of story.revisions.entries()) {
      const fingerprint = `${id}-${at + 1}`
      const own = revisionId(id, fingerprint)
      const last = at === story.revisions.length - 1
      const letters = all.slice(0, Math.round(drawn * all.length))
      revisions.push({
        ...records(today),
        id: own,
        font: id,
        fingerprint,
        fileName: `${story.title.replaceAll(' ', '')}-${at + 1}.otf`,
        received: ago(days),
        answered: last && story.waits ? null : ago(Math.max(0, days - 2)),
        planned: all.length,
        drawn: letters.length,
        settled: Math.round(settled * all.length),
        open,
      })
      if (!last) continue
      readings.push({
        ...records(today),
        id: own,
        font: id,
        unitsPerEm: 1000,
        heights: [],
        letters: Object.fromEntries(letters.map((letter) => [letter, '00000000'])),
        findings: [],
        drawings: {},
        features: [],
      })
    }
  }
  return { fonts, revisions, readings }
}

/** Puts the example on the shelf, beside whatever is there. */
export async function showExample(store: DeskStore): Promise<void> {
  const newer = <T>(_here: T, there: T): T => there
  await store.putAll(
    { ...example(Date.now()), reviews: [] },
    { fonts: newer, revisions: newer, readings: newer, reviews: newer },
    [],
  )
}

export async function takeExampleAway(store: DeskStore): Promise<void> {
  for (const { id } of await store.fonts()) {
    if (id.startsWith(EXAMPLE)) await store.forget(id, [])
  }
}
