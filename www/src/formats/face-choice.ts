import { css, html, LitElement } from 'lit'
import { customElement, query } from 'lit/decorators.js'
import { many } from '../figures'
import type { FaceName } from '../generated/FaceName'
import { base, button, dialog } from '../styles/shared'

/** Asks which face of a collection is to be opened. */
@customElement('face-choice')
export class FaceChoice extends LitElement {
  static override styles = [
    base,
    button,
    dialog,
    css`
      dialog {
        width: min(30rem, calc(100vw - 2rem));
        padding: var(--gap-4) var(--gap-5) var(--gap-5);
        overflow: auto;
      }

      h2 {
        font: 400 var(--type-5) / 1.2 var(--title-face);
        overflow-wrap: anywhere;
      }

      p {
        margin-block: var(--gap-2) var(--gap-3);
        color: var(--soft);
        font-size: var(--type-2);
      }

      fieldset {
        max-height: 50dvh;
        margin: 0;
        padding: 0;
        overflow: auto;
        border: 0;
        border-block: var(--hair) solid var(--rule);
      }

      label {
        display: flex;
        align-items: center;
        gap: var(--gap-3);
        min-height: 2.25rem;
        padding-inline: var(--gap-2);
        cursor: pointer;
      }

      label + label {
        border-block-start: var(--hair) solid var(--rule);
      }

      label:has(:checked) {
        background: var(--wash);
      }

      input {
        accent-color: var(--ink);
      }

      .style {
        color: var(--soft);
      }

      .row {
        display: flex;
        justify-content: end;
        gap: var(--gap-2);
        margin-block-start: var(--gap-4);
      }

      .main {
        color: var(--paper);
        background: var(--ink);
        forced-color-adjust: none;
      }

      button.main:hover:not([aria-disabled="true"]) {
        background: var(--soft);
      }
    `,
  ]

  faces: readonly FaceName[] = []
  fileName = ''
  /** Whether another face can be chosen later, without this question. */
  kept = true
  answer: (face: number | null) => void = () => {}

  @query('dialog') private readonly dialog!: HTMLDialogElement
  @query('input') private readonly first!: HTMLInputElement

  override firstUpdated(): void {
    this.dialog.showModal()
    this.first.focus()
  }

  override render() {
    return html`<dialog aria-labelledby="title" aria-describedby="what" @close=${this.#closed}>
      <form method="dialog">
        <h2 id="title">Which face shall open?</h2>
        <p id="what">${this.fileName} is a collection of ${many(this.faces.length, 'face')}.${this.kept ? ' The others stay at hand beside the stage.' : ''}</p>
        <fieldset>
          <legend class="unseen">Faces</legend>
          ${this.faces.map(
            ({ family, style }, index) => html`<label @dblclick=${() => this.dialog.close(String(index))}>
              <input type="radio" name="face" value=${index} ?checked=${index === 0} />
              <span>${family || `Face ${index + 1}`} <span class="style">${style}</span></span>
            </label>`,
          )}
        </fieldset>
        <div class="row">
          <button type="button" class="framed" @click=${() => this.dialog.close('')}>Open none</button>
          <button type="submit" class="main" @click=${this.#open}>Open</button>
        </div>
      </form>
    </dialog>`
  }

  #open = (event: Event): void => {
    event.preventDefault()
    const chosen = this.renderRoot.querySelector<HTMLInputElement>(':checked')
    this.dialog.close(chosen?.value ?? '0')
  }

  #closed = (): void => {
    // Left with the Escape key, a dialog has no value.
    const value = this.dialog.returnValue
    this.answer(value === '' ? null : Number(value))
  }
}

/** Puts the question away, if one is asked: another file has come. */
let dismiss = () => {}
export const dismissFace = (): void => dismiss()

/** Resolves to a face's number, or to null if none is wanted. */
export async function askFace(
  faces: readonly FaceName[],
  fileName: string,
  kept = true,
): Promise<number | null> {
  const choice = document.createElement('face-choice') as FaceChoice
  choice.faces = faces
  choice.fileName = fileName
  choice.kept = kept
  const answer = new Promise<number | null>((resolve) => {
    choice.answer = resolve
    dismiss = () => resolve(null)
  })
  document.querySelector('lab-sheet')?.shadowRoot?.append(choice)
  try {
    return await answer
  } finally {
    choice.remove()
  }
}
