/** Unusual files on the page: opened, cut anew as an axis moves, judged along an axis. */

import { isRefusal } from '../refusal'
import type { PageState } from '../state'
import './axes-panel'
import { askFace, dismissFace } from './face-choice'
import { asDrawn, type Parcel, samePosition, styleOf } from './parcel'
import { Parcels } from './parcels'

/** What the handling needs of the page. */
export interface Host {
  readonly state: PageState
  set(change: Partial<PageState>): void
  /** Puts another cut of the open file on the stage; at rest it is judged and measured too. */
  recut(bytes: Uint8Array<ArrayBuffer>, parcel: Parcel, resting: boolean): void
}

/** A plain font, and what it was made of. */
export interface Unpacked {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly parcel: Parcel | null
}

/** An axis that has not moved for so long is at rest, milliseconds. */
const REST = 250

/** Positions that a step back can lead to. */
const MOST_STEPS = 100

export class Handling {
  readonly parcels = new Parcels()
  /** A position that is wanted and not yet asked for. */
  #wanted: readonly number[] | null = null
  #cutting = false
  #rest: ReturnType<typeof setTimeout> | undefined
  /** Where a move began, until it comes to rest. */
  #from: readonly number[] | null = null

  constructor(private readonly host: Host) {}

  /** A plain font of a file; null if the person chose none of its faces. */
  async open(bytes: Uint8Array<ArrayBuffer>, fileName: string): Promise<Unpacked | null> {
    this.#forget()
    dismissFace()
    const packed = bytes[0] === 0x77
    try {
      const file = await this.parcels.open(bytes)
      const face = file.faces.length > 1 ? await askFace(file.faces, fileName) : 0
      if (face === null) return null
      return await this.#take({ file, face })
    } catch (error) {
      // A plain file that cannot be handled here may still open, or the lab has the better sentence.
      if (packed || !isRefusal(error)) throw error
      return { bytes, parcel: null }
    }
  }

  /** Opens another face of the collection. */
  async choose(face: number): Promise<void> {
    const { parcel } = this.host.state
    if (!parcel || face === parcel.face) return
    this.#forget()
    try {
      const next = await this.#take({ file: parcel.file, face })
      if (next.parcel) this.host.recut(next.bytes, next.parcel, true)
    } catch (error) {
      this.#tell(error)
    }
  }

  async #take({ file, face }: Pick<Parcel, 'file' | 'face'>): Promise<Unpacked> {
    const report = await this.parcels.face(face)
    const position = asDrawn(report)
    const parcel: Parcel = { file, face, report, position, before: [], trouble: null }
    const varies = position.length > 0
    try {
      return { bytes: await this.#cut(parcel, varies ? position : null), parcel }
    } catch (error) {
      if (!varies || !isRefusal(error)) throw error
      // Its axes are of no use, but its letters may be.
      const still = { ...parcel, position: [], trouble: error.sentence }
      return { bytes: await this.#cut(parcel, null), parcel: still }
    }
  }

  #cut({ face, report }: Parcel, position: readonly number[] | null) {
    return this.parcels.cut({ face, position, style: position && styleOf(report, position) })
  }

  /** Moves the axes; while they move, letters are drawn and nothing is judged. */
  move(position: readonly number[], resting = false): void {
    const { parcel } = this.host.state
    if (!parcel) return
    this.#from ??= parcel.position
    this.#wanted = position
    clearTimeout(this.#rest)
    this.#rest = setTimeout(() => void this.#settle(), resting ? 0 : REST)
    if (!resting) void this.#follow()
  }

  /** Goes back to where the axes stood before they were last moved. */
  back(): void {
    const { parcel } = this.host.state
    const last = parcel?.before.at(-1)
    if (!parcel || !last) return
    this.host.set({ parcel: { ...parcel, before: parcel.before.slice(0, -1) } })
    this.#from = last
    this.move(last, true)
  }

  /** Draws the position that is wanted now; those passed over meanwhile are never asked for. */
  async #follow(): Promise<void> {
    if (this.#cutting) return
    this.#cutting = true
    try {
      for (let at = this.#wanted; at !== null; at = this.#wanted) {
        this.#wanted = null
        await this.#stand(at, false)
      }
    } finally {
      this.#cutting = false
    }
  }

  async #settle(): Promise<void> {
    const { parcel } = this.host.state
    const [from, at] = [this.#from, this.#wanted ?? parcel?.position]
    if (!parcel || !at) return
    if (this.#cutting) {
      // The last picture of the move first.
      this.#rest = setTimeout(() => void this.#settle(), REST / 4)
      return
    }
    this.#wanted = null
    this.#from = null
    const steps =
      from && !samePosition(from, at) ? [...parcel.before, from].slice(-MOST_STEPS) : parcel.before
    await this.#stand(at, true, steps)
  }

  async #stand(position: readonly number[], resting: boolean, before?: Parcel['before']): Promise<void> {
    const { parcel } = this.host.state
    if (!parcel) return
    try {
      const bytes = await this.#cut(parcel, position)
      const now = this.host.state.parcel
      // Another file, or another face of this one, has come meanwhile.
      if (now?.file !== parcel.file || now.face !== parcel.face) return
      this.host.recut(bytes, { ...now, position, before: before ?? now.before }, resting)
    } catch (error) {
      this.#tell(error)
    }
  }

  #tell(error: unknown): void {
    if (isRefusal(error)) this.host.set({ remark: error.sentence })
    else console.error(error)
  }

  #forget(): void {
    clearTimeout(this.#rest)
    this.#wanted = null
    this.#from = null
  }
}
