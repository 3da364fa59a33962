/**
 * The desk's database. Every change is read, made and written in one
 * transaction, and is told as saved once the browser has put it on the disk: a
 * tab that dies before that loses that change and no other.
 */

import { type DBSchema, type IDBPDatabase, openDB } from 'idb'
import {
  DATABASE,
  DATABASE_VERSION,
  type FileRecord,
  type FontRecord,
  now,
  type ReadingRecord,
  type ReviewRecord,
  type RevisionRecord,
} from './schema'

export interface Records {
  fonts: FontRecord
  revisions: RevisionRecord
  readings: ReadingRecord
  reviews: ReviewRecord
}
export type StoreName = keyof Records

interface Tables extends DBSchema {
  fonts: { key: string; value: FontRecord }
  revisions: { key: string; value: RevisionRecord; indexes: { font: string; fingerprint: string } }
  readings: { key: string; value: ReadingRecord; indexes: { font: string } }
  reviews: { key: string; value: ReviewRecord; indexes: { font: string } }
  files: { key: string; value: FileRecord }
}

/** A change of one record: what it was gives what it is to be; null changes nothing, undefined takes it away. */
export type Change<T> = (current: T | undefined) => Omit<T, 'changed' | 'rev'> | null | undefined

/** What another tab is told: whose records have changed. */
interface Told {
  readonly font: string
}

const STORES = ['fonts', 'revisions', 'readings', 'reviews'] as const
const ALL = [...STORES, 'files'] as const

interface Overwritten {
  readonly store: StoreName
  readonly id: string
  /** What was there; nothing if nothing was. */
  readonly here: Records[StoreName] | undefined
  /** What was put, spelled out. */
  readonly put: string
}

/** What many records were before they were put. */
export interface Before {
  readonly records: readonly Overwritten[]
  /** Fingerprints of files that came. */
  readonly files: readonly string[]
}

export class DeskStore {
  readonly #channel: BroadcastChannel | null =
    typeof BroadcastChannel === 'undefined' ? null : new BroadcastChannel(DATABASE)

  private constructor(private readonly db: IDBPDatabase<Tables>) {}

  /** Opens the database, and makes it where there is none. */
  static async open(name = DATABASE): Promise<DeskStore> {
    const db = await openDB<Tables>(name, DATABASE_VERSION, {
      upgrade(fresh) {
        fresh.createObjectStore('fonts', { keyPath: 'id' })
        for (const store of ['readings', 'reviews'] as const) {
          fresh.createObjectStore(store, { keyPath: 'id' }).createIndex('font', 'font')
        }
        const revisions = fresh.createObjectStore('revisions', { keyPath: 'id' })
        revisions.createIndex('font', 'font')
        revisions.createIndex('fingerprint', 'fingerprint')
        fresh.createObjectStore('files', { keyPath: 'fingerprint' })
      },
      // A tab with a newer page is not kept waiting by this one.
      blocking: (_current, _next, event) => (event.target as IDBDatabase).close(),
    })
    return new DeskStore(db)
  }

  /** Hears of what other tabs have written. */
  heard(listener: (font: string) => void): void {
    if (!this.#channel) return
    this.#channel.onmessage = ({ data }: MessageEvent<Told>) => listener(data.font)
  }

  fonts(): Promise<FontRecord[]> {
    return this.db.getAll('fonts')
  }

  revisions(): Promise<RevisionRecord[]> {
    return this.db.getAll('revisions')
  }

  font(id: string): Promise<FontRecord | undefined> {
    return this.db.get('fonts', id)
  }

  /** Where on the shelf a file is known from. */
  revisionsOfFile(fingerprint: string): Promise<RevisionRecord[]> {
    return this.db.getAllFromIndex('revisions', 'fingerprint', fingerprint)
  }

  reading(id: string): Promise<ReadingRecord | undefined> {
    return this.db.get('readings', id)
  }

  revisionsOf(font: string): Promise<RevisionRecord[]> {
    return this.db.getAllFromIndex('revisions', 'font', font)
  }

  readingsOf(font: string): Promise<ReadingRecord[]> {
    return this.db.getAllFromIndex('readings', 'font', font)
  }

  reviewsOf(font: string): Promise<ReviewRecord[]> {
    return this.db.getAllFromIndex('reviews', 'font', font)
  }

  file(fingerprint: string): Promise<FileRecord | undefined> {
    return this.db.get('files', fingerprint)
  }

  filesKept(): Promise<string[]> {
    return this.db.getAllKeys('files')
  }

  /** Changes one record, whatever it has become meanwhile. Resolves when it is on the disk. */
  async change<S extends StoreName>(
    store: S,
    id: string,
    change: Change<Records[S]>,
  ): Promise<Records[S] | undefined> {
    const written = await this.changeAll([{ store, id, change } as unknown as AnyChange])
    return written[0] as Records[S] | undefined
  }

  /** Changes several records, all of them or none. */
  async changeAll(changes: readonly AnyChange[]): Promise<(Records[StoreName] | undefined)[]> {
    if (changes.length === 0) return []
    const tx = this.db.transaction(STORES, 'readwrite', { durability: 'strict' })
    const written: (Records[StoreName] | undefined)[] = []
    try {
      for (const { store, id, change } of changes) {
        const table = tx.objectStore(store)
        const current = await table.get(id)
        const next = (change as Change<Records[StoreName]>)(current)
        if (next === null) {
          written.push(current)
          continue
        }
        if (next === undefined) {
          await table.delete(id)
          written.push(current)
          continue
        }
        const record = { ...next, changed: now(), rev: (current?.rev ?? 0) + 1 } as Records[StoreName]
        await table.put(record as never)
        written.push(record)
      }
      await tx.done
    } catch (error) {
      tx.done.catch(() => {})
      abort(tx)
      throw error
    }
    this.#tell(written)
    return written
  }

  /**
   * Puts records as they are, merged by the caller with what was there, all of
   * them or none. What was there is given back, for `takeBackAll`.
   */
  async putAll(
    records: { readonly [S in StoreName]: readonly Records[S][] },
    merge: { readonly [S in StoreName]: (here: Records[S], there: Records[S]) => Records[S] },
    files: readonly FileRecord[],
  ): Promise<Before> {
    const tx = this.db.transaction(ALL, 'readwrite', { durability: 'strict' })
    const before: { records: Overwritten[]; files: string[] } = { records: [], files: [] }
    const put = async <S extends StoreName>(store: S): Promise<void> => {
      const table = tx.objectStore(store)
      for (const record of records[store]) {
        const here = (await table.get(record.id)) as Records[S] | undefined
        const made = here ? merge[store](here, record) : record
        before.records.push({ store, id: record.id, here, put: JSON.stringify(made) })
        await table.put(made as never)
      }
    }
    try {
      for (const store of STORES) await put(store)
      for (const file of files) {
        if (!(await tx.objectStore('files').getKey(file.fingerprint))) before.files.push(file.fingerprint)
        await tx.objectStore('files').put(file)
      }
      await tx.done
    } catch (error) {
      tx.done.catch(() => {})
      abort(tx)
      throw error
    }
    this.#channel?.postMessage({ font: '' } satisfies Told)
    return before
  }

  /** Makes all as it was before `putAll`, but for what has been changed since: that stays. */
  async takeBackAll(before: Before): Promise<void> {
    const tx = this.db.transaction(ALL, 'readwrite', { durability: 'strict' })
    for (const { store, id, here, put } of before.records) {
      const table = tx.objectStore(store)
      if (JSON.stringify(await table.get(id)) !== put) continue
      if (here) await table.put({ ...here, rev: here.rev + 1 } as never)
      else await table.delete(id)
    }
    for (const fingerprint of before.files) await tx.objectStore('files').delete(fingerprint)
    await tx.done
    this.#channel?.postMessage({ font: '' } satisfies Told)
  }

  /** All of it, as it stood at one moment. */
  async everything(): Promise<{ [S in StoreName]: Records[S][] } & { files: FileRecord[] }> {
    const tx = this.db.transaction(ALL)
    const [fonts, revisions, readings, reviews, files] = await Promise.all([
      tx.objectStore('fonts').getAll(),
      tx.objectStore('revisions').getAll(),
      tx.objectStore('readings').getAll(),
      tx.objectStore('reviews').getAll(),
      tx.objectStore('files').getAll(),
    ])
    return { fonts, revisions, readings, reviews, files }
  }

  async keepFile(file: FileRecord): Promise<void> {
    const tx = this.db.transaction('files', 'readwrite', { durability: 'strict' })
    await Promise.all([tx.store.put(file), tx.done])
  }

  async dropFile(fingerprint: string): Promise<void> {
    const tx = this.db.transaction('files', 'readwrite', { durability: 'strict' })
    await Promise.all([tx.store.delete(fingerprint), tx.done])
  }

  /** Forgets a font with all that was said of it. */
  async forget(font: string, fingerprints: readonly string[]): Promise<void> {
    const tx = this.db.transaction(ALL, 'readwrite', { durability: 'strict' })
    for (const store of ['revisions', 'readings', 'reviews'] as const) {
      for (const key of await tx.objectStore(store).index('font').getAllKeys(font)) {
        await tx.objectStore(store).delete(key)
      }
    }
    for (const fingerprint of fingerprints) await tx.objectStore('files').delete(fingerprint)
    await tx.objectStore('fonts').delete(font)
    await tx.done
    this.#channel?.postMessage({ font } satisfies Told)
  }

  close(): void {
    this.#channel?.close()
    this.db.close()
  }

  #tell(written: readonly (Records[StoreName] | undefined)[]): void {
    const fonts = new Set(written.filter((one) => one !== undefined).map((one) => fontOf(one)))
    for (const font of fonts) this.#channel?.postMessage({ font } satisfies Told)
  }
}

export type AnyChange = {
  [S in StoreName]: { readonly store: S; readonly id: string; readonly change: Change<Records[S]> }
}[StoreName]

const fontOf = (record: Records[StoreName]): string => ('font' in record ? record.font : record.id)

/** One that has ended cannot be given up; that is no second error. */
function abort(tx: { abort(): void }): void {
  try {
    tx.abort()
  } catch {
    // It had failed by itself.
  }
}
