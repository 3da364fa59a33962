import type { ReactiveController, ReactiveControllerHost } from 'lit'
import type { PageState, Store } from '../state'

/**
 * Gives a component the one part of the page's state that it shows, and draws
 * it again when that part changes and not otherwise: a drag changes the state
 * on every frame, and most of the page does not care.
 */
export class PartOf<T> implements ReactiveController {
  value: T
  #end: (() => void) | undefined

  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly store: Store,
    private readonly part: (state: PageState) => T,
    private readonly same: (a: T, b: T) => boolean = Object.is,
  ) {
    this.value = part(store.state)
    host.addController(this)
  }

  hostConnected(): void {
    this.#take(this.store.state)
    this.#end = this.store.subscribe((state) => this.#take(state))
  }

  hostDisconnected(): void {
    this.#end?.()
  }

  /** Takes the part anew, where it depends on the component's own properties. */
  refresh(): void {
    this.value = this.part(this.store.state)
  }

  #take(state: PageState): void {
    const next = this.part(state)
    if (this.same(this.value, next)) return
    this.value = next
    this.host.requestUpdate()
  }
}
