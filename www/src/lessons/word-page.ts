import { css, html, LitElement, nothing, type PropertyValues } from 'lit'
import { customElement, property, state } from 'lit/decorators.js'
import type { WordReport } from '../generated/WordReport'
import { session } from '../session'
import { base, button } from '../styles/shared'
import { lessonWords } from './lesson-words'
import { lessonsStyle } from './lessons-style'
import { wordPicture } from './pictures'
import { current, go } from './place'
import { wordsIn } from './with-words'

/** Every word of the trade that the page uses, drawn from the open font. */
@customElement('word-page')
export class WordPage extends LitElement {
  static override styles = [
    base,
    button,
    lessonsStyle,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: var(--gap-2) var(--gap-4);
        margin-block-end: var(--gap-3);
      }

      .cards {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(min(14.5rem, 100%), 1fr));
        gap: var(--gap-4);
        list-style: none;
      }

      .asked {
        margin-block-end: var(--gap-5);
        padding-block-end: var(--gap-5);
        border-block-end: var(--hair) solid var(--rule);
      }

      .asked .cards {
        grid-template-columns: repeat(auto-fill, minmax(min(20rem, 100%), 1fr));
      }

      li {
        display: flex;
        flex-direction: column;
        gap: var(--gap-1);
      }

      .frame {
        height: 8.5rem;
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
        border-radius: var(--corner);
      }

      .asked .frame {
        height: 13rem;
      }

      .none {
        display: grid;
        place-items: center;
        height: 100%;
        padding: var(--gap-3);
        color: var(--soft);
        font-size: var(--type-2);
        text-align: center;
      }

      h4 {
        color: var(--ink);
        font: 400 var(--type-4) / 1.3 var(--title-face);
        letter-spacing: 0;
      }

      li p {
        font-size: var(--type-2);
      }

      .row label {
        display: flex;
        align-items: center;
        gap: var(--gap-2);
      }
    `,
  ]

  @property({ attribute: false }) words: readonly WordReport[] = []
  @property({ attribute: false }) asked: readonly string[] = []

  @state() private find = ''

  override updated(changed: PropertyValues): void {
    if (changed.has('asked') && this.asked.length > 0)
      this.renderRoot.querySelector<HTMLElement>('h3')?.focus()
  }

  override render() {
    const asked = this.#asked()
    const find = this.find.trim().toLowerCase()
    const found = this.words.filter(({ term, also }) =>
      [term, ...also].some((form) => form.toLowerCase().includes(find)),
    )
    const { lesson, from } = current()
    return html`<div class="head">
        <h3 tabindex="-1">Words of the trade</h3>
        <div class="row">
          <label>Find <input type="text" autocomplete="off" .value=${this.find} @input=${this.#type} /></label>
          ${
            from
              ? html`<button class="framed" type="button" @click=${this.#back}>Back to where you were</button>`
              : nothing
          }
          <button class="framed" type="button" @click=${() => go({ page: 'lesson' })}>
            Back to: ${lessonWords[lesson.lesson].name}
          </button>
        </div>
      </div>
      ${
        this.asked.length === 0
          ? nothing
          : html`<section class="asked" aria-label="Words that you asked about">
              ${
                asked.length > 0
                  ? html`<ul class="cards">${asked.map((word) => this.#card(word))}</ul>`
                  : html`<p>No word of the trade stands in what you pointed at. All of them are here.</p>`
              }
            </section>`
      }
      <ul class="cards" aria-label="All words">${found.map((word) => this.#card(word))}</ul>
      <p class="unseen" role="status">${find ? `${found.length} found` : ''}</p>`
  }

  /** The words of the nearest text that has any. */
  #asked(): WordReport[] {
    for (const text of this.asked) {
      const ids = wordsIn(text, this.words)
      if (ids.length > 0) return ids.flatMap((id) => this.words.filter((word) => word.id === id))
    }
    return []
  }

  #card({ term, meaning, picture }: WordReport) {
    return html`<li>
      <div class="frame">
        ${
          picture
            ? wordPicture(picture, `${term}, on this font’s letters`)
            : html`<p class="none">This font has no letter that shows it.</p>`
        }
      </div>
      <h4>${term}</h4>
      <p>${meaning}</p>
    </li>`
  }

  #back = (): void => {
    const { from } = current()
    go({ page: 'lesson', from: null })
    session.reviewing.set({ room: from })
  }

  #type = (event: Event): void => {
    this.find = (event.target as HTMLInputElement).value
  }
}
