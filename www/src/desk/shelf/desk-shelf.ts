import { html, LitElement, nothing } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import { repeat } from 'lit/directives/repeat.js'
import { icon, iconStyle } from '../../components/icons'
import { PartOf } from '../../components/part-of'
import { many } from '../../figures'
import { save } from '../../save'
import { session } from '../../session'
import { base, button, heading } from '../../styles/shared'
import { bringIn, everything, pack, Refused } from '../archive'
import { EXAMPLE, showExample, takeExampleAway } from '../sample'
import { type FontRecord, type RevisionRecord, today } from '../schema'
import { blankParticulars } from '../shelving'
import type { Before } from '../store'
import { arrange, type Board, boardName, boards, forecastWords, paceWords, type Shelved } from '../urgency'
import { dayWords, sizeWords } from '../words'
import { row } from './charts'
import type { Said } from './shelf-form'
import './shelf-form'
import './shelf-font'
import { shelfStyle } from './shelf-style'

const UNREAD =
  'The shelf could not be read. Close it and open it again; if that does not help, load the page anew.'
const NO_STORE =
  'This browser keeps nothing for this page, so there is no shelf. Private windows often keep nothing: open the page in an ordinary one.'

/** Fonts in the first picture: more than any window shows at once. The rest stand behind it a moment later. */
const FIRST = 16

/** Every font under way, on boards: who needs a word today stands on the topmost. */
@customElement('desk-shelf')
export class DeskShelf extends LitElement {
  static override styles = [base, button, heading, iconStyle, shelfStyle]

  readonly #review = new PartOf(this, session.store, (page) => page.review)
  readonly #font = new PartOf(this, session.store, (page) => page.font?.report ?? null)

  @state() private fonts: readonly FontRecord[] | null = null
  @state() private revisions: readonly RevisionRecord[] = []
  @state() private open = ''
  @state() private whole = false
  @state() private placing = false
  @state() private trouble = ''
  @state() private said = ''
  @state() private usage = ''
  @state() private persisted: boolean | null = null
  /** What Undo brings back: a font that was taken off. */
  @state() private removed: FontRecord | null = null

  /** What taking back an import makes so again. */
  @state() private brought: { readonly name: string; readonly before: Before } | null = null

  @query('input[type="file"]') private readonly chooser!: HTMLInputElement

  #seen: unknown = null

  override connectedCallback(): void {
    super.connectedCallback()
    void this.#read()
  }

  override willUpdate(): void {
    // What the page or another tab writes is shown here too.
    const { writing, shelved, revision, elsewhere } = this.#review.value
    const seen = `${writing} ${shelved?.rev} ${revision?.rev} ${elsewhere}`
    if (this.#seen !== null && this.#seen !== seen && writing === 0) void this.#read()
    this.#seen = seen
  }

  override render() {
    if (this.#review.value.kept === 'unkept') return html`<p class="told">${NO_STORE}</p>`
    if (this.trouble && this.fonts === null)
      return html`<p class="told failed" role="alert">${this.trouble}</p>`
    if (this.fonts === null) return html`<p class="told" role="status">Reading the shelf…</p>`
    const shelved = arrange(this.fonts, this.revisions, today())
    const shown = this.whole ? shelved : shelved.slice(0, FIRST)
    return html`${this.#head(shelved)} ${this.#place()}
      ${shelved.length === 0 ? this.#empty() : boards.map((board) => this.#board(board, shown, shelved))} ${this.#off()}
      ${this.#foot()}
      <p class="unseen" role="status">${this.said}</p>`
  }

  #head(shelved: readonly Shelved[]) {
    const of = (board: Board): number => shelved.filter((one) => one.board === board).length
    const parts = [
      `${many(shelved.length, 'font')} on the shelf`,
      of('answer') > 0 && `${many(of('answer'), 'font waits', 'fonts wait')} for your word`,
      of('late') > 0 && `${of('late')} late or going to be`,
      of('silent') > 0 && `${of('silent')} gone quiet`,
    ].filter(Boolean)
    const { shelved: own, font } = this.#review.value
    return html`<div class="head">
      <p class="sum">${shelved.length > 0 ? `${parts.join('; ')}.` : ''}</p>
      ${
        this.#font.value && font !== '' && !own
          ? html`<button class="framed" type="button" aria-expanded=${this.placing} @click=${this.#turnPlacing}>
              ${icon('plus')} Put ${this.#font.value.family} on the shelf
            </button>`
          : nothing
      }
      ${this.removed ? this.#undo(this.removed) : nothing} ${this.brought ? this.#unbring(this.brought) : nothing}
    </div>
    ${this.trouble ? html`<p class="told failed" role="alert">${this.trouble}</p>` : nothing}`
  }

  #undo(font: FontRecord) {
    return html`<button class="framed" type="button" @click=${() => void this.#remove(font, false)}>
      ${icon('undo')} Put ${font.title} back
    </button>`
  }

  #unbring({ name, before }: { name: string; before: Before }) {
    return html`<button
      class="framed"
      type="button"
      @click=${async () => {
        this.brought = null
        const done = await session.reviewing.write((store) => store.takeBackAll(before))
        if (!done) return
        this.said = `What ${name} brought is taken back.`
        await session.reviewing.shelving.refresh()
        await this.#read()
      }}
    >
      ${icon('undo')} Take back what ${name} brought
    </button>`
  }

  #place() {
    const report = this.#font.value
    if (!this.placing || !report) return nothing
    return html`<section class="placing" aria-label="Put ${report.family} on the shelf">
      <shelf-form
        fresh
        .particulars=${blankParticulars(report.family, report.designer ?? '')}
        @said=${(event: Said) => void this.#placed(event)}
      ></shelf-form>
    </section>`
  }

  #empty() {
    return html`<div class="empty">
      <div class="bare" aria-hidden="true"></div>
      <h3>Nothing is on the shelf yet</h3>
      <p>
        Open a font that an artist has sent you, then put it on the shelf here: who draws it, which letters are planned,
        and by when. From then on the shelf says how far it is, and when it will be whole.
      </p>
      <p>
        <button class="framed" type="button" @click=${() => void this.#example()}>Show an example shelf</button>
      </p>
    </div>`
  }

  #board(board: Board, shown: readonly Shelved[], shelved: readonly Shelved[]) {
    const own = shown.filter((one) => one.board === board)
    if (own.length === 0) return nothing
    return html`<section class="board" aria-labelledby="board-${board}">
      <h3 id="board-${board}">${boardName[board]} <span class="count">${shelved.filter((one) => one.board === board).length}</span></h3>
      <ol>
        ${repeat(
          own,
          (one) => one.font.id,
          (one) => this.#row(one),
        )}
      </ol>
    </section>`
  }

  #row(shelved: Shelved) {
    const { font, revisions, forecast, reason } = shelved
    const latest = revisions.at(-1)
    const planned = latest?.planned ?? new Set(font.planned).size
    const open = this.open === font.id
    return html`<li class="font ${open ? 'open' : ''}">
      <button
        class="face"
        type="button"
        aria-expanded=${open}
        @click=${() => {
          this.open = open ? '' : font.id
        }}
      >
        <span class="name"><b>${font.title || font.family}</b><span>${font.contributor || 'artist not named'}</span></span>
        <span class="type">
          ${row(planned, latest?.drawn ?? 0, latest?.settled ?? 0)}
        </span>
        <span class="why">${reason}</span>
        <span class="figures">
          <span><b>${latest?.drawn ?? 0}</b> of ${planned} drawn</span>
          <span><b>${latest?.settled ?? 0}</b> settled</span>
          <span><b>${latest?.open ?? 0}</b> ${latest?.open === 1 ? 'finding' : 'findings'}</span>
          <span>${paceWords(forecast)}</span>
        </span>
        <span class="when">${font.due ? `Due ${dayWords(font.due)}. ` : ''}${forecastWords(forecast, today())}</span>
      </button>
      ${
        open
          ? html`<shelf-font
              .shelved=${shelved}
              @removed=${() => void this.#remove(font, true)}
              @changed=${() => void this.#read()}
            ></shelf-font>`
          : nothing
      }
    </li>`
  }

  /** What was taken off: to be put back, or forgotten for good. */
  #off() {
    const off = this.fonts?.filter((font) => font.removed !== null) ?? []
    if (off.length === 0) return nothing
    return html`<details class="off">
      <summary>Taken off the shelf (${off.length})</summary>
      <ul>
        ${off.map(
          (font) => html`<li>
            <span>${font.title}, ${dayWords(font.removed ?? '')}</span>
            <button class="framed" type="button" @click=${() => void this.#remove(font, false)}>
              Put back<span class="unseen"> ${font.title}</span>
            </button>
            <button type="button" @click=${() => void this.#forget(font)}>
              Forget for good<span class="unseen">: ${font.title}</span>
            </button>
          </li>`,
        )}
      </ul>
    </details>`
  }

  #foot() {
    const example = this.fonts?.some((font) => font.id.startsWith(EXAMPLE) && font.removed === null)
    return html`<footer>
      <div class="ways">
        <button class="framed" type="button" @click=${() => void this.#save()}>${icon('save')} Save the desk to a file</button>
        <button class="framed" type="button" @click=${() => this.chooser.click()}>${icon('open')} Bring in a desk</button>
        ${
          example
            ? html`<button class="framed" type="button" @click=${() => void this.#noExample()}>Take the example away</button>`
            : nothing
        }
        <input type="file" accept=".zip,application/zip" hidden @change=${() => void this.#bring()} />
      </div>
      <p>
        ${this.usage}
        ${
          this.persisted === false
            ? html`The browser may clear it when its disk runs full.
                <button class="turn" type="button" @click=${() => void this.#persist()}>Ask it to keep this</button>`
            : this.persisted
              ? 'The browser has promised to keep it.'
              : nothing
        }
      </p>
    </footer>`
  }

  async #read(): Promise<void> {
    await session.reviewing.ready
    const { store } = session.reviewing
    if (!store) return
    try {
      const [fonts, revisions] = await Promise.all([store.fonts(), store.revisions()])
      this.revisions = revisions
      this.fonts = fonts
      await this.updateComplete
      performance.mark('shelf-shown')
      // After the picture that this frame makes.
      requestAnimationFrame(() =>
        setTimeout(() => {
          this.whole = true
        }),
      )
      await this.#measure()
    } catch (error) {
      console.warn(error)
      this.trouble = UNREAD
    }
  }

  async #measure(): Promise<void> {
    const { usage, quota } = (await navigator.storage?.estimate?.()) ?? {}
    this.usage =
      usage === undefined || quota === undefined
        ? ''
        : `Kept in this browser: ${sizeWords(usage)} of ${sizeWords(quota)}.`
    this.persisted = (await navigator.storage?.persisted?.()) ?? null
  }

  async #persist(): Promise<void> {
    const kept = await navigator.storage.persist()
    this.persisted = kept
    this.said = kept
      ? 'The browser keeps it.'
      : 'The browser did not promise it. Save the desk to a file now and then.'
    if (!kept) this.trouble = this.said
  }

  #turnPlacing = (): void => {
    this.placing = !this.placing
  }

  async #placed(event: Said): Promise<void> {
    const done = await session.reviewing.shelving.place(event.particulars, event.keep)
    if (!done) return
    this.placing = false
    this.said = `${event.particulars.title} is on the shelf.`
    await this.#read()
  }

  async #remove(font: FontRecord, off: boolean): Promise<void> {
    const removed = off ? new Date().toISOString() : null
    const done = await session.reviewing.write((store) =>
      store.change('fonts', font.id, (current) => (current ? { ...current, removed } : null)),
    )
    if (!done) return
    this.removed = off ? font : null
    this.open = ''
    this.said = off ? `${font.title} is off the shelf.` : `${font.title} is back on the shelf.`
    await session.reviewing.shelving.refresh()
    await this.#read()
  }

  async #forget(font: FontRecord): Promise<void> {
    if (!confirm(`Forget ${font.title}, its revisions and every word about it? This cannot be undone.`))
      return
    const files = this.revisions.filter((one) => one.font === font.id).map((one) => one.fingerprint)
    await session.reviewing.write((store) => store.forget(font.id, files))
    if (this.removed?.id === font.id) this.removed = null
    await session.reviewing.shelving.refresh()
    await this.#read()
  }

  async #example(): Promise<void> {
    await session.reviewing.write(showExample)
    this.said = 'An example shelf is shown.'
    await this.#read()
  }

  async #noExample(): Promise<void> {
    await session.reviewing.write(takeExampleAway)
    this.said = 'The example is gone.'
    await this.#read()
  }

  async #save(): Promise<void> {
    const { store } = session.reviewing
    if (!store) return
    const { archive, files } = await everything(store)
    const bytes = await pack(archive, files)
    save(document, new Blob([bytes], { type: 'application/zip' }), `${today()}-desk.zip`)
    this.said = 'The desk is saved.'
  }

  async #bring(): Promise<void> {
    const file = this.chooser.files?.[0]
    this.chooser.value = ''
    const { store } = session.reviewing
    if (!file || !store) return
    this.trouble = ''
    try {
      const bytes = new Uint8Array(await file.arrayBuffer())
      const brought = await bringIn(store, bytes)
      this.brought = { name: file.name, before: brought.before }
      this.said = `Brought in: ${many(brought.fonts, 'font')}, ${many(brought.reviews, 'word')}, ${many(brought.files, 'font file')}.`
      await session.reviewing.shelving.refresh()
      await this.#read()
    } catch (error) {
      this.trouble =
        error instanceof Refused ? `${file.name}: ${error.message}` : `${file.name} could not be read.`
    }
  }
}
