import 'fake-indexeddb/auto'
import { expect, it } from 'vitest'
import { bringIn, everything, pack, parse, Refused, unpack, upgrade } from './archive'
import { oldMeant, takeOver } from './meant'
import { example } from './sample'
import { reviewId } from './schema'
import { DeskStore } from './store'
import { font, reading, review, revision } from './testing'

let number = 0
const fresh = () => {
  number += 1
  return DeskStore.open(`desk-${number}`)
}

it('changes a record as it stands, and counts the changes', async () => {
  const store = await fresh()
  const blank = review('R')
  await store.change('reviews', blank.id, (now) => ({ ...(now ?? blank), verdict: 'redraw' as const }))
  await store.change('reviews', blank.id, (now) => ({ ...(now ?? blank), note: 'Bowl.' }))
  const [kept] = await store.reviewsOf('f')
  expect(kept).toMatchObject({ verdict: 'redraw', note: 'Bowl.', rev: 2 })
})

it('keeps what two tabs say of one letter at once', async () => {
  const name = 'desk-of-two'
  const [one, other] = await Promise.all([DeskStore.open(name), DeskStore.open(name)])
  const blank = review('R')
  await Promise.all([
    ...[...Array(20).keys()].map(() =>
      one.change('reviews', blank.id, (now) => ({ ...(now ?? blank), note: `${now?.note ?? ''}1` })),
    ),
    ...[...Array(20).keys()].map(() =>
      other.change('reviews', blank.id, (now) => ({ ...(now ?? blank), note: `${now?.note ?? ''}2` })),
    ),
  ])
  const [kept] = await one.reviewsOf('f')
  expect(kept?.rev).toBe(40)
  expect([...(kept?.note ?? '')].filter((sign) => sign === '1')).toHaveLength(20)
  expect([...(kept?.note ?? '')].filter((sign) => sign === '2')).toHaveLength(20)
})

it('makes several changes or none', async () => {
  const store = await fresh()
  const blank = review('R')
  const fails = store.changeAll([
    { store: 'reviews', id: blank.id, change: () => blank },
    {
      store: 'fonts',
      id: 'f',
      change: () => {
        throw new Error('a change that cannot be made')
      },
    },
  ])
  await expect(fails).rejects.toThrow('cannot be made')
  expect(await store.reviewsOf('f')).toEqual([])
  // The store works on.
  await store.change('reviews', blank.id, () => blank)
  expect(await store.reviewsOf('f')).toHaveLength(1)
})

it('takes over what was meant so before there was a desk, once', async () => {
  const store = await fresh()
  const storage = {
    text: JSON.stringify([{ font: '0123', meant: ['R width', '  raised', 'n nonsense'] }, 3]) as
      | string
      | null,
    getItem: () => storage.text,
    removeItem: () => {
      storage.text = null
    },
  }
  await takeOver(storage, store)
  const kept = await store.reviewsOf('0123')
  expect(kept.map(({ letter, cause, verdict }) => [letter, cause, verdict])).toEqual([
    [' ', 'raised', 'meant'],
    ['R', 'width', 'meant'],
  ])
  expect(storage.text).toBeNull()
  await takeOver(storage, store)
  expect(await store.reviewsOf('0123')).toHaveLength(2)
  for (const text of [null, '', 'nonsense', '3', '{}', '[{"font":1}]']) expect(oldMeant(text)).toEqual([])
})

it('forgets a font with all that was said of it, and nothing else', async () => {
  const store = await fresh()
  await store.putAll(
    {
      fonts: [font('f'), font('g')],
      revisions: [revision('f', '2026-05-01'), revision('g', '2026-05-01')],
      readings: [reading('f', '2026-05-01')],
      reviews: [review('R'), review('R', { font: 'g' })],
    },
    { fonts: (a) => a, revisions: (a) => a, readings: (a) => a, reviews: (a) => a },
    [{ fingerprint: '2026-05-01', name: 'a.otf', bytes: new ArrayBuffer(3) }],
  )
  await store.forget('f', ['2026-05-01'])
  const all = await store.everything()
  expect(all.fonts.map(({ id }) => id)).toEqual(['g'])
  expect(all.revisions).toHaveLength(1)
  expect(all.reviews.map(({ font: of }) => of)).toEqual(['g'])
  expect([all.readings, all.files]).toEqual([[], []])
})

async function full(): Promise<DeskStore> {
  const store = await fresh()
  const { fonts, revisions, readings } = example(Date.parse('2026-05-20'))
  const keep = <T>(here: T): T => here
  await store.putAll(
    {
      fonts,
      revisions,
      readings,
      reviews: [review('R', { font: fonts[0]?.id ?? '', note: 'Ganz “schön”.' })],
    },
    { fonts: keep, revisions: keep, readings: keep, reviews: keep },
    [{ fingerprint: 'abc', name: 'a.otf', bytes: Uint8Array.of(1, 2, 3).buffer }],
  )
  return store
}

const packed = async (store: DeskStore): Promise<Uint8Array> => {
  const { archive, files } = await everything(store)
  return pack(archive, files)
}

it('goes into a file and comes out of it whole', async () => {
  const store = await full()
  const bytes = await packed(store)
  const other = await fresh()
  expect(await bringIn(other, bytes)).toMatchObject({ fonts: 6, reviews: 1, files: 1 })
  expect(await other.everything()).toEqual(await store.everything())
  // Once more changes nothing.
  await bringIn(other, bytes)
  expect(await other.everything()).toEqual(await store.everything())
})

it('loses nothing of either side when a file is brought in', async () => {
  const [here, there] = await Promise.all([full(), full()])
  const id = review('R', { font: 'example-1' }).id
  await here.change('reviews', id, (now) =>
    now ? { ...now, note: 'Said here.', verdict: 'redraw' as const } : null,
  )
  await there.change('reviews', id, (now) => (now ? { ...now, note: 'Said there.' } : null))
  await there.change('reviews', 'example-1/S/', () => review('S', { font: 'example-1' }))
  await bringIn(here, await packed(there))
  const all = await here.reviewsOf('example-1')
  expect(all).toHaveLength(2)
  const both = all.find((one) => one.letter === 'R')
  expect(both?.verdict).toBe('redraw')
  for (const words of ['Said here.', 'Said there.']) expect(both?.note).toContain(words)
})

it('refuses a file that was cut off, anywhere, and changes nothing', async () => {
  const bytes = await packed(await full())
  const store = await fresh()
  for (const share of [0, 0.01, 0.2, 0.5, 0.9, 0.99, 0.9999]) {
    const part = bytes.slice(0, Math.floor(share * bytes.length))
    await expect(bringIn(store, part), `${share}`).rejects.toThrow(Refused)
  }
  const flipped = bytes.slice()
  for (let at = 200; at < 400; at += 1) flipped[at] = 0xff
  await expect(bringIn(store, flipped)).rejects.toThrow(Refused)
  expect((await store.everything()).fonts).toEqual([])
})

it('brings in what the first version wrote, and refuses what a later one does', async () => {
  const first = { format: 'counterpoise-desk', version: 1, meant: [{ font: '0123', meant: ['R width'] }] }
  const read = parse(JSON.stringify(first))
  expect(read.reviews).toMatchObject([{ font: '0123', letter: 'R', cause: 'width', verdict: 'meant' }])
  expect(() => upgrade({ format: 'counterpoise-desk', version: 99 })).toThrow(/newer Counterpoise/)
  for (const none of [null, 3, [], {}, { format: 'other', version: 2 }, { format: 'counterpoise-desk' }]) {
    expect(() => upgrade(none)).toThrow(Refused)
  }
})

it('holds a stranger’s records to their shape', async () => {
  const { archive } = await everything(await full())
  const text = (change: object): string => JSON.stringify({ ...archive, ...change })
  expect(parse(text({})).fonts).toHaveLength(6)
  const name = '<img src=x onerror=alert(1)>\u202etxt.exe\u0000'
  const [hostile] = parse(text({ fonts: [font('f', { title: name })] })).fonts
  // As text it is harmless; what would turn or hide it is gone.
  expect(hostile?.title).toBe('<img src=x onerror=alert(1)> txt.exe')
  const evil = {
    'a path that is none': {
      readings: [reading('f', 'x', { drawings: { A: { advance: 1, path: '"/><script>' } } })],
    },
    'a verdict of its own': { reviews: [{ ...review('R'), verdict: 'evil' }] },
    'a record under another’s name': { reviews: [{ ...review('R'), id: 'g/R/' }] },
    'a figure that is none': { revisions: [{ ...revision('f', 'x'), planned: Number.NaN }] },
    'a day that is none': { fonts: [font('f', { due: '31 May' })] },
    'a note without end': { reviews: [review('R', { note: 'x'.repeat(30_000) })] },
    'no list': { fonts: { length: 3 } },
  }
  for (const [what, change] of Object.entries(evil)) expect(() => parse(text(change)), what).toThrow(Refused)
  const bytes = await pack({ ...archive, files: [{ fingerprint: '../../etc', name: 'x' }] }, [])
  expect((await unpack(bytes)).files).toEqual([])
})

const keepHere = <T>(here: T): T => here
const merges = { fonts: keepHere, revisions: keepHere, readings: keepHere, reviews: keepHere }

it('takes back what was brought in, but for what was said since', async () => {
  const [here, there] = [await fresh(), await fresh()]
  await here.putAll(
    { fonts: [font('own')], revisions: [], readings: [], reviews: [review('A', { font: 'own' })] },
    merges,
    [],
  )
  await there.putAll(
    {
      fonts: [font('own', { note: 'theirs' }), font('new')],
      revisions: [],
      readings: [],
      reviews: [review('B', { font: 'own' }), review('C', { font: 'own' })],
    },
    merges,
    [{ fingerprint: 'f', name: 'f.otf', bytes: new ArrayBuffer(4) }],
  )
  const was = await here.everything()
  const { before } = await bringIn(here, await packed(there))
  const said = reviewId('own', 'C', null)
  await here.change('reviews', said, (one) => (one ? { ...one, note: 'since' } : null))
  await here.takeBackAll(before)
  const is = await here.everything()
  expect(is.fonts.map(({ id, note }) => [id, note])).toEqual(was.fonts.map(({ id, note }) => [id, note]))
  expect(is.files).toEqual([])
  expect(is.reviews.map(({ letter, note }) => [letter, note])).toEqual([
    ['A', ''],
    ['C', 'since'],
  ])
})
