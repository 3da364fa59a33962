/** The shelf's pictures: letters standing in a row, the way to a whole font, findings from revision to revision. */

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit'
import { many } from '../../figures'
import type { RevisionRecord } from '../schema'
import { forecastWords, type Shelved } from '../urgency'
import { dayWords } from '../words'

/** Widest row of single letters; more are drawn as one piece of type for several. */
const MOST_SORTS = 130
const WIDE = 520
const TALL = 26

/**
 * The planned letters as type on a shelf: settled ones stand in ink, drawn ones
 * are outlined, those to come have but their place.
 */
export function row(planned: number, drawn: number, settled: number): TemplateResult {
  const words = `${settled} of ${many(planned, 'letter')} settled, ${drawn - settled} drawn and not settled, ${planned - drawn} to draw`
  const each = Math.max(1, Math.ceil(planned / MOST_SORTS))
  const count = Math.max(1, Math.ceil(planned / each))
  const step = WIDE / count
  const width = Math.max(1.2, step - 1.2)
  let [ink, outline, places] = ['', '', '']
  for (let at = 0; at < count; at += 1) {
    const x = (at * step).toFixed(1)
    const letter = at * each
    if (letter < settled) ink += `M${x} 0h${width.toFixed(1)}v${TALL}h-${width.toFixed(1)}z`
    else if (letter < drawn)
      outline += `M${(at * step + 0.6).toFixed(1)} 0.6h${(width - 1.2).toFixed(1)}v${TALL - 0.6}h-${(width - 1.2).toFixed(1)}z`
    else places += `M${x} ${TALL - 3}h${width.toFixed(1)}`
  }
  return html`<svg class="row" viewBox="0 0 ${WIDE} ${TALL}" preserveAspectRatio="none" role="img" aria-label=${words}>
    <path class="ink" d=${ink} /><path class="outline" d=${outline} /><path class="place" d=${places} />
  </svg>`
}

const W = 460
const H = 170
const LEFT = 40
const RIGHT = 12
const TOP = 16
const FOOT = 26

/** Letters still to settle, from the first revision to the day on which there should be none. */
export function burnDown(shelved: Shelved, today: string): TemplateResult {
  const { revisions, font, forecast } = shelved
  const latest = revisions.at(-1)
  const first = revisions[0]
  if (!latest || !first)
    return html`<p class="quiet">Nothing has come in yet, so there is nothing to draw.</p>`
  const planned = latest.planned
  const due = font.due === null ? null : Date.parse(font.due)
  const begin = Date.parse(first.received)
  const ends = [Date.parse(today), Date.parse(latest.received), due ?? 0]
  if (forecast.kind === 'date') ends.push(forecast.at, forecast.spread?.to ?? 0)
  if (forecast.kind === 'guess') ends.push(forecast.to)
  const end = Math.max(...ends, begin + 1)
  const x = (at: number): number => LEFT + ((Math.min(at, end) - begin) / (end - begin)) * (W - LEFT - RIGHT)
  const y = (left: number): number => TOP + (1 - left / Math.max(1, planned)) * (H - TOP - FOOT)
  const line = (of: (one: RevisionRecord) => number): string =>
    revisions
      .map(
        (one, at) =>
          `${at === 0 ? 'M' : 'L'}${x(Date.parse(one.received)).toFixed(1)} ${y(planned - of(one)).toFixed(1)}`,
      )
      .join('')
  const [lastX, lastY] = [x(Date.parse(latest.received)), y(planned - latest.settled)]
  const ground = y(0)
  const words = `Letters still to settle: ${revisions.map((one) => `${planned - one.settled} on ${dayWords(one.received)}`).join(', ')}. ${forecastWords(forecast, today)}`
  return html`<svg class="chart" viewBox="0 0 ${W} ${H}" role="img" aria-label=${words}>
    ${coming(shelved, x, lastX, lastY, ground)}
    <path class="axis" d="M${LEFT} ${TOP}V${ground}H${W - RIGHT}" />
    <path class="drawn" d=${line((one) => one.drawn)} />
    <path class="settled" d=${line((one) => one.settled)} />
    ${revisions.map((one) => svg`<circle class="dot" cx=${x(Date.parse(one.received))} cy=${y(planned - one.settled)} r="3.5" />`)}
    <text x=${LEFT - 6} y=${TOP + 4} text-anchor="end">${planned}</text>
    <text x=${LEFT - 6} y=${ground + 4} text-anchor="end">0</text>
    <text x=${LEFT} y=${H - 6}>${dayWords(first.received)}</text>
    ${end > begin + 1 ? svg`<text x=${W - RIGHT} y=${H - 6} text-anchor="end">${dayWords(new Date(end))}</text>` : nothing}
    ${dueLine(due, x, ground)}
  </svg>`
}

function coming(
  { forecast }: Shelved,
  x: (at: number) => number,
  lastX: number,
  lastY: number,
  ground: number,
): SVGTemplateResult | typeof nothing {
  if (forecast.kind !== 'date') return nothing
  const to = x(forecast.at)
  const { spread } = forecast
  const wedge = spread
    ? svg`<path class="wedge" d="M${lastX} ${lastY}L${x(spread.from)} ${ground}H${x(spread.to ?? Number.POSITIVE_INFINITY)}z" />`
    : nothing
  return svg`${wedge}<path class="coming" d="M${lastX} ${lastY}L${to} ${ground}" />`
}

function dueLine(
  due: number | null,
  x: (at: number) => number,
  ground: number,
): SVGTemplateResult | typeof nothing {
  if (due === null) return nothing
  const at = Math.max(LEFT, x(due))
  const right = at > W - 60
  return svg`<path class="due" d="M${at} ${TOP}V${ground}" />
    <text x=${right ? at - 4 : at + 4} y=${TOP + 4} text-anchor=${right ? 'end' : 'start'}>due</text>`
}

/** Open findings of each revision, as they stand now. */
export function findingBars(revisions: readonly RevisionRecord[]): TemplateResult {
  if (revisions.length === 0) return html``
  const most = Math.max(1, ...revisions.map((one) => one.open))
  const step = Math.min(44, (W - LEFT - RIGHT) / revisions.length)
  const tall = 70
  const words = `Open findings: ${revisions.map((one, at) => `${one.open} in revision ${at + 1}`).join(', ')}.`
  return html`<svg class="chart bars" viewBox="0 0 ${W} ${tall + 36}" role="img" aria-label=${words}>
    <path class="axis" d="M${LEFT} ${tall + 16}H${W - RIGHT}" />
    ${revisions.map((one, at) => {
      const height = (one.open / most) * tall
      const x = LEFT + at * step
      return svg`<rect class="bar" x=${x + 3} y=${tall + 16 - height} width=${Math.max(2, step - 8)} height=${height} />
        <text x=${x + step / 2 - 1} y=${tall + 12 - height} text-anchor="middle">${one.open}</text>
        <text x=${x + step / 2 - 1} y=${tall + 31} text-anchor="middle">${at + 1}</text>`
    })}
  </svg>`
}
