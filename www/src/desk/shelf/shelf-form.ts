import { css, html, LitElement, nothing } from 'lit'
import { customElement, property, query, state } from 'lit/decorators.js'
import { icon, iconStyle } from '../../components/icons'
import { many } from '../../figures'
import { base, button, field } from '../../styles/shared'
import { charactersOf, languageName, languages, sets } from '../plan'
import type { Plan } from '../schema'
import { blankParticulars, type Particulars } from '../shelving'

/** Told when something has been said: all of it, each time. */
export class Said extends Event {
  constructor(
    readonly particulars: Particulars,
    readonly keep: boolean,
  ) {
    super('said')
  }
}

/** What the reviewer says of a font: who draws it, what is planned, by when. */
@customElement('shelf-form')
export class ShelfForm extends LitElement {
  static override styles = [
    base,
    field,
    button,
    iconStyle,
    css`
      form {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(14rem, 1fr));
        gap: var(--gap-3) var(--gap-4);
        font-size: var(--type-2);
      }

      label,
      fieldset {
        display: grid;
        gap: var(--gap-1);
        align-content: start;
        min-width: 0;
        margin: 0;
        padding: 0;
        border: 0;
      }

      label > span,
      legend {
        padding: 0;
        color: var(--soft);
        font-weight: 600;
        font-size: var(--type-1);
      }

      .wide {
        grid-column: 1 / -1;
      }

      input:not([type="checkbox"], [type="radio"]),
      textarea {
        width: 100%;
        min-height: max(var(--target), 2rem);
        padding: 0.25rem var(--gap-2);
      }

      textarea {
        min-height: 3rem;
        resize: vertical;
      }

      .choice {
        display: flex;
        align-items: center;
        gap: var(--gap-2);
        min-height: var(--target);
        color: inherit;
      }

      .choice input {
        width: 1.125rem;
        height: 1.125rem;
        accent-color: var(--pick);
      }

      .chips {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-1);
      }

      .chips button {
        border-color: var(--edge);
        background: var(--lift);
      }

      .add {
        display: flex;
        gap: var(--gap-1);
      }

      .quiet {
        color: var(--soft);
      }

      a {
        color: var(--ink);
      }
    `,
  ]

  @property({ attribute: false }) particulars: Particulars = blankParticulars('', '')
  /** A font that is not on the shelf yet: nothing is said before the button is pressed. */
  @property({ type: Boolean }) fresh = false

  @state() private plan: Plan | null = null
  @state() private keep = true
  @state() private trouble = ''

  @query('form') private readonly form!: HTMLFormElement
  @query('#language') private readonly language!: HTMLInputElement

  override render() {
    const { title, contributor, due, kind, begun, note } = this.particulars
    const plan = this.plan ?? this.particulars.plan
    const planned = new Set(charactersOf(plan)).size
    return html`<form @submit=${this.#submit} @change=${this.#changed}>
      <label><span>Working title</span><input name="title" type="text" maxlength="200" required .value=${title} /></label>
      <label><span>Drawn by</span><input name="contributor" type="text" maxlength="200" .value=${contributor} /></label>
      <label><span>Begun</span><input name="begun" type="date" required .value=${begun} /></label>
      <label><span>Due</span><input name="due" type="date" .value=${due ?? ''} /></label>
      <fieldset>
        <legend>Kind of face</legend>
        ${[['plain', 'An average face'] as const, ['ornamented', 'Richly ornamented'] as const].map(
          ([value, words]) => html`<label class="choice"
            ><input type="radio" name="kind" value=${value} .checked=${kind === value} />${words}</label
          >`,
        )}
      </fieldset>
      <fieldset>
        <legend>Character sets</legend>
        ${sets.map(
          ({ id, name }) => html`<label class="choice"
            ><input type="checkbox" .checked=${plan.sets.includes(id)} @change=${() => this.#toggle(id)} />${name}</label
          >`,
        )}
      </fieldset>
      <fieldset class="wide">
        <legend>Languages</legend>
        <div class="chips">
          ${plan.languages.map(
            (code) => html`<button type="button" @click=${() => this.#drop(code)}>
              ${languageName(code)} ${icon('close')}<span class="unseen">: leave it out</span>
            </button>`,
          )}
        </div>
        <div class="add">
          <input
            id="language"
            type="text"
            list="languages"
            aria-label="A language to add"
            placeholder="Polish, Turkish, Vietnamese …"
            @keydown=${this.#onKey}
          />
          <button class="framed" type="button" @click=${this.#add}>Add</button>
        </div>
        <p class="quiet">
          Which letters a language is written with is told by the Unicode CLDR (<a href="./assets/cldr-licence.txt" target="_blank" rel="noopener">its licence</a>).
        </p>
        <datalist id="languages">${languages.map(({ name }) => html`<option value=${name}></option>`)}</datalist>
        ${this.trouble ? html`<p role="alert">${this.trouble}</p>` : nothing}
      </fieldset>
      <label class="wide"
        ><span>Letters of your own</span
        ><textarea name="text" maxlength="20000" placeholder="Any others, as text" .value=${plan.text}></textarea>
      </label>
      <label class="wide"><span>Note</span><textarea name="note" maxlength="20000" .value=${note}></textarea></label>
      <p class="wide quiet">
        ${planned === 0 ? 'Nothing is planned: the alphabet and the figures are counted.' : `${many(planned, 'character')} planned, each counted once.`}
      </p>
      ${
        this.fresh
          ? html`<label class="choice wide"
                ><input type="checkbox" .checked=${this.keep} @change=${this.#keep} />Keep the font’s file in this browser
                too, to open it from the shelf</label
              >
              <p class="wide"><button class="framed" type="submit">Put it on the shelf</button></p>`
          : nothing
      }
    </form>`
  }

  #keep = (event: Event): void => {
    event.stopPropagation()
    this.keep = (event.target as HTMLInputElement).checked
  }

  #toggle(id: Plan['sets'][number]): void {
    const plan = this.plan ?? this.particulars.plan
    const has = plan.sets.includes(id)
    this.plan = { ...plan, sets: has ? plan.sets.filter((one) => one !== id) : [...plan.sets, id] }
  }

  #drop(code: string): void {
    const plan = this.plan ?? this.particulars.plan
    this.plan = { ...plan, languages: plan.languages.filter((one) => one !== code) }
    this.#changed()
  }

  #onKey = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter') return
    event.preventDefault()
    this.#add()
  }

  #add = (): void => {
    const name = this.language.value.trim().toLowerCase()
    const found = languages.find((one) => one.name.toLowerCase() === name || one.code.toLowerCase() === name)
    this.trouble =
      found || name === '' ? '' : 'No language of that name is in the tables. Choose one of the list.'
    if (!found) return
    const plan = this.plan ?? this.particulars.plan
    if (!plan.languages.includes(found.code))
      this.plan = { ...plan, languages: [...plan.languages, found.code] }
    this.language.value = ''
    this.#changed()
  }

  /** Of a font on the shelf every change is written at once. */
  #changed = (event?: Event): void => {
    if (event?.target === this.language) return
    if (!this.fresh && this.form.checkValidity()) this.#say()
  }

  #submit = (event: SubmitEvent): void => {
    event.preventDefault()
    if (this.fresh) this.#say()
  }

  #say(): void {
    const data = new FormData(this.form)
    const text = (name: string): string => `${data.get(name) ?? ''}`.trim()
    const plan = { ...(this.plan ?? this.particulars.plan), text: `${data.get('text') ?? ''}` }
    const particulars: Particulars = {
      title: text('title'),
      contributor: text('contributor'),
      begun: text('begun') || this.particulars.begun,
      due: text('due') || null,
      kind: data.get('kind') === 'ornamented' ? 'ornamented' : 'plain',
      note: `${data.get('note') ?? ''}`,
      plan,
      planned: charactersOf(plan),
    }
    this.dispatchEvent(new Said(particulars, this.keep))
  }
}
