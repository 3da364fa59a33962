import { html, LitElement } from 'lit'
import { customElement, property } from 'lit/decorators.js'
import { session } from '../session'
import { PartOf } from './part-of'

/** A letter set in the font that is open, as far as the browser takes it. */
@customElement('set-letter')
export class SetLetter extends LitElement {
  @property() letter = ''

  readonly #face = new PartOf(this, session.store, (state) => state.font?.face ?? null)

  /** In the component around it, so that its text is that component's text. */
  protected override createRenderRoot(): this {
    return this
  }

  override updated(): void {
    // Set through the object model: the content security policy forbids style attributes.
    this.style.fontFamily = this.#face.value === null ? '' : `"${this.#face.value}", var(--text-face)`
  }

  override render() {
    return html`${this.letter}`
  }
}
