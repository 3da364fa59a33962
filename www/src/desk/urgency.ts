/** Which font needs a word today, from whom, and why. */

import { many } from '../figures'
import { type Forecast, forecast, history, type Point } from './forecast'
import type { FontRecord, RevisionRecord } from './schema'
import { agoWords, DAY, daysBetween, dayWords, spanWords } from './words'

/** The boards of the shelf, from the top. */
export const boards = ['answer', 'late', 'silent', 'underway', 'whole'] as const
export type Board = (typeof boards)[number]

export const boardName: Record<Board, string> = {
  answer: 'Waiting for your word',
  late: 'Late, or going to be',
  silent: 'Gone quiet',
  underway: 'Under way',
  whole: 'Whole',
}

/** A font as it lies on the shelf. */
export interface Shelved {
  readonly font: FontRecord
  /** Oldest first. */
  readonly revisions: readonly RevisionRecord[]
  readonly points: readonly Point[]
  readonly forecast: Forecast
  readonly board: Board
  /** Why it lies there, in a sentence. */
  readonly reason: string
  /** Within its board, the more the higher. */
  readonly weight: number
}

/** Quiet for this many times as long as is usual between its revisions is silence (common practice, no source). */
const SILENCE = 2
/** Of a font with one revision or none: as long as an average face may take. */
const FIRST_SILENCE = 60

export function shelve(font: FontRecord, own: readonly RevisionRecord[], today: string): Shelved {
  const revisions = own.toSorted((a, b) => a.received.localeCompare(b.received))
  const points = history(revisions)
  const latest = revisions.at(-1)
  const planned = new Set(font.planned).size || latest?.planned || 0
  const coming = forecast(font, planned, points)
  const place = (board: Board, weight: number, reason: string): Shelved => ({
    font,
    revisions,
    points,
    forecast: coming,
    board,
    reason,
    weight,
  })

  if (latest && latest.answered === null) {
    const days = daysBetween(latest.received, today)
    const what = revisions.length === 1 ? 'It' : `Revision ${revisions.length}`
    return place('answer', days, `${what} came in ${agoWords(days)} and has no answer yet.`)
  }
  if (coming.kind === 'whole') return place('whole', 0, 'Every letter that is planned is drawn and settled.')
  if (font.due !== null) {
    const over = daysBetween(font.due, today)
    if (over > 0) return place('late', 10_000 + over, `It was due ${agoWords(over)}.`)
    const beyond = coming.kind === 'date' ? (coming.at - Date.parse(font.due)) / DAY : 0
    if (beyond >= 1) {
      return place('late', beyond, `At its pace it will be whole ${spanWords(beyond)} after its date.`)
    }
    if (coming.kind === 'standing') {
      return place('late', 1, `It is due ${dayWords(font.due)} and has not come nearer of late.`)
    }
  }
  const quiet = daysBetween(latest?.received ?? font.begun, today)
  const usual = interval(points) ?? FIRST_SILENCE / SILENCE
  if (quiet > SILENCE * usual) {
    const since = latest ? 'Nothing has come' : 'Nothing has come yet, and it was begun'
    const reason = latest ? `${since} for ${spanWords(quiet)}.` : `${since} ${agoWords(quiet)}.`
    return place('silent', quiet / usual, reason)
  }
  if (!latest) return place('underway', 0, `Begun ${agoWords(quiet)}; nothing has come in yet.`)
  const left = planned - latest.settled
  return place('underway', 1 / (1 + left), `${many(left, 'letter')} from whole; the artist has your word.`)
}

/** Days that usually lie between revisions: the middle of them. */
function interval(points: readonly Point[]): number | null {
  const gaps = points.slice(1).map((point, at) => (point.at - (points[at]?.at ?? point.at)) / DAY)
  const sorted = gaps.toSorted((a, b) => a - b)
  return sorted.length === 0 ? null : Math.max(1, sorted[Math.floor(sorted.length / 2)] ?? 1)
}

/** The shelf, who needs a word today first. */
export function arrange(
  fonts: readonly FontRecord[],
  revisions: readonly RevisionRecord[],
  today: string,
): Shelved[] {
  const own = new Map<string, RevisionRecord[]>()
  for (const revision of revisions) {
    const list = own.get(revision.font)
    if (list) list.push(revision)
    else own.set(revision.font, [revision])
  }
  return fonts
    .filter((font) => font.removed === null)
    .map((font) => shelve(font, own.get(font.id) ?? [], today))
    .toSorted(
      (a, b) =>
        boards.indexOf(a.board) - boards.indexOf(b.board) ||
        b.weight - a.weight ||
        a.font.title.localeCompare(b.font.title),
    )
}

/** When it will be whole, with how sure that is; a date that has passed is told as one. */
export function forecastWords(coming: Forecast, today: string): string {
  if (coming.kind === 'date' && coming.at < Date.parse(today)) {
    return `At its pace it would have been whole by ${dayWords(new Date(coming.at))}: the next revision will tell.`
  }
  switch (coming.kind) {
    case 'whole':
      return 'Whole.'
    case 'guess':
      return `Too little history to tell. By the rule of thumb, between ${dayWords(new Date(coming.from))} and ${dayWords(new Date(coming.to))}.`
    case 'standing':
      return 'No date: letters settled have not grown from revision to revision.'
    case 'date': {
      const at = `Whole about ${dayWords(new Date(coming.at))}`
      if (!coming.spread)
        return `${at}, if the pace between its two revisions holds; two cannot tell how sure that is.`
      const { from, to } = coming.spread
      const early = dayWords(new Date(from))
      return to === null
        ? `${at}; four times in five from ${early} on, with no end that its history tells.`
        : `${at}; four times in five between ${early} and ${dayWords(new Date(to))}.`
    }
  }
}

/** "1.4 letters a week". */
export function paceWords(coming: Forecast): string {
  if (coming.kind !== 'date') return 'no pace yet'
  const week = coming.pace * 7
  return week >= 1
    ? `${many(Number(week.toFixed(1)), 'letter')} a week`
    : `${many(Number((week * 4.35).toFixed(1)), 'letter')} a month`
}
