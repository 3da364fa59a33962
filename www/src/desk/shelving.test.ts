import 'fake-indexeddb/auto'
import { expect, it } from 'vitest'
import { initialState, type PageState } from '../state'
import type { Opened } from './reviewing'
import { type Bench, Reviewing } from './reviewing'
import { font } from './testing'

/** More letters than are read in one task. */
const MANY = Array.from({ length: 250 }, (_, at) => String.fromCodePoint(0x4e00 + at)).join('')

const file = (fingerprint: string): Opened => ({
  fingerprint,
  fileName: `${fingerprint}.ttf`,
  bytes: new ArrayBuffer(8),
  report: {
    family: fingerprint,
    style: '',
    version: null,
    designer: null,
    manufacturer: null,
    copyright: null,
    licence: null,
    licenceUrl: null,
    embedding: null,
    outlines: 'TrueType',
    faceIndex: 0,
    faceCount: 1,
    unitsPerEm: 1000,
    glyphCount: MANY.length,
    characterCount: MANY.length,
    guides: [],
    slant: 0,
    notes: [],
  },
})

/** A desk on whose stage a font stands, whose letters are all drawn alike. */
class Stage implements Bench {
  state: PageState = initialState
  path = ''
  set(change: Partial<PageState>): void {
    this.state = { ...this.state, ...change }
  }
  apply(): void {}
  contents() {
    return { characters: MANY, features: [] }
  }
  drawings(text: string) {
    return [...text].map((character) => ({ character, glyph: 1, advance: 500, path: this.path }))
  }
  stageWidth(): number {
    return 800
  }
}

async function desk() {
  const stage = new Stage()
  const reviewing = new Reviewing(stage)
  await reviewing.start(undefined)
  const open = (name: string) => {
    stage.path = `M0 0h${name.length}`
    return reviewing.shelving.opened(file(name))
  }
  const store = reviewing.store
  if (!store) throw new Error('no store')
  return { reviewing, store, open }
}

it('keeps a font with its letters', async () => {
  const { reviewing, store, open } = await desk()
  await open('one')
  expect(await reviewing.shelving.place({ ...font('one'), planned: MANY }, true)).toBe(true)
  const [kept] = await store.revisionsOf('one')
  expect(kept).toMatchObject({ fingerprint: 'one', drawn: MANY.length })
  const read = kept && (await store.reading(kept.id))
  expect(Object.keys(read?.letters ?? {})).toHaveLength(MANY.length)
  expect((await store.file('one'))?.name).toBe('one.ttf')
})

it('never keeps one font under the name of another that was opened meanwhile', async () => {
  const { reviewing, store, open } = await desk()
  await open('first')
  await reviewing.shelving.place({ ...font('first'), planned: MANY }, false)
  const [shelved] = (await store.fonts()).filter((one) => one.id === 'first')
  if (!shelved) throw new Error('not on the shelf')

  await open('third')
  const placed = reviewing.shelving.place({ ...font('third'), planned: MANY }, true)
  await open('fourth')
  expect(await placed).toBe(false)
  expect((await store.fonts()).map((one) => one.id)).not.toContain('third')
  expect(await store.file('third')).toBeUndefined()

  const takenIn = reviewing.shelving.takeIn(shelved, true)
  await open('fifth')
  expect(await takenIn).toBe(false)
  const revisions = await store.revisionsOf('first')
  expect(revisions.map((one) => one.fingerprint)).toEqual(['first'])
  expect(await store.file('fifth')).toBeUndefined()
})

it('says nothing of a font once another lies on the stage', async () => {
  const { reviewing, open } = await desk()
  await open('sixth')
  expect(reviewing.state.font).toBe('sixth')
  reviewing.forget()
  const asked = open('seventh')
  reviewing.forget()
  await asked
  expect(reviewing.state.font).toBe('')
  await open('eighth')
  expect(reviewing.state.font).toBe('eighth')
})

it('says nothing of a font that was there before the desk, and is no more', async () => {
  const reviewing = new Reviewing(new Stage())
  const told = reviewing.opened(file('ninth'))
  reviewing.forget()
  await reviewing.start(undefined)
  await told
  expect(reviewing.state.font).toBe('')
})
