import { css, html, LitElement, nothing } from 'lit'
import { customElement, property } from 'lit/decorators.js'
import { PartOf } from '../components/part-of'
import type { Cause } from '../generated/Cause'
import { session } from '../session'
import { base } from '../styles/shared'
import { reviewOf } from './review-state'
import { verdictName, verdictSign } from './words'

/** The word on a letter or a finding, small, beside what it is about. */
@customElement('desk-word')
export class DeskWord extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: inline;
      }

      span {
        display: inline-block;
        padding: 0 0.3125rem;
        color: var(--ink);
        border: var(--hair) solid var(--edge);
        border-radius: 1em;
        font-size: var(--type-1);
        line-height: 1.35;
      }
    `,
  ]

  @property() letter = ''
  @property() cause: Cause | null = null

  readonly #reviews = new PartOf(this, session.store, (state) => state.review.reviews)

  override render() {
    const review = reviewOf(this.#reviews.value, { letter: this.letter, cause: this.cause })
    const said = review && (review.verdict !== null || review.note !== '' || review.marks.length > 0)
    if (!said) return nothing
    const more = [review.note !== '' && 'a note', review.marks.length > 0 && 'marks']
      .filter(Boolean)
      .join(' and ')
    const word = review.verdict === null ? '' : verdictName[review.verdict]
    const sign = review.verdict === null ? '' : verdictSign[review.verdict]
    return html`<span title=${review.note || nothing}
      >${sign} ${word}${word && more ? ', ' : ''}${more && `with ${more}`}</span
    >`
  }
}
