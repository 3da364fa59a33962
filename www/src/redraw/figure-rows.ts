/** Figures of a letter before and after, as a table. */

import { html, type TemplateResult } from 'lit'
import { figure, percent, signed } from '../figures'
import type { FigureChange } from '../generated/FigureChange'
import type { QuantityName } from '../generated/QuantityName'
import { quantities } from './module'

let known: Map<string, QuantityName> | undefined

const quantity = (id: string): QuantityName | undefined => {
  known ??= new Map(quantities().map((one: QuantityName) => [one.id, one]))
  return known.get(id)
}

/** Less is told as no change: half of the last digit that is shown. */
const SEEN = 0.05

/** The figures that changed, or a sentence where none did. */
export function figureRows(figures: readonly FigureChange[], before: string, after: string): TemplateResult {
  const rows = figures.flatMap(({ id, old, new: now }) => {
    const of = quantity(id)
    if (!of) return []
    const [scale, told] = of.share ? [100, percent] : [1, (v: number) => figure(v)]
    const change = old != null && now != null ? scale * (now - old) : null
    if (change !== null && Math.abs(change) < SEEN) return []
    return [{ name: of.name, old, now, told, change, share: of.share }]
  })
  if (rows.length === 0) return html`<p class="note">No figure changes by a tenth of a unit.</p>`
  return html`<table>
    <thead>
      <tr><th scope="col">Figure</th><th scope="col">${before}</th><th scope="col">${after}</th><th scope="col">Change</th></tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ name, old, now, told, change, share }) => html`<tr>
          <th scope="row">${name}</th>
          <td>${old == null ? '–' : told(old)}</td>
          <td>${now == null ? '–' : told(now)}</td>
          <td>${signed(change)}${share && change !== null ? ' pp' : ''}</td>
        </tr>`,
      )}
    </tbody>
  </table>`
}
