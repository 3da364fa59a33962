/**
 * A font with as many glyphs as there can be, made here: TrueType outlines, a
 * character map that spans five blocks, and names, so that nothing has to be
 * fetched to try the largest (OpenType specification, the tables' chapters).
 */

/** 65,535: what the count in maxp can say. */
export const MOST = 0xffff

/** Glyphs that no character leads to stand behind those that one does. */
export const CODED = 60_000

/** Names that post has room for: it counts them from 258 in sixteen bits. The last glyphs share one. */
const NAMED = MOST - 258

/** Ranges of characters, in order of code point. */
const RANGES = [
  [0x20, 0x7e],
  [0xa0, 0x24f],
  [0x4e00, 0x9fff],
  [0xac00, 0xd7a3],
  [0x20000, 0x2a6df],
]

class Bytes {
  #parts = []
  u8(...values) {
    this.#parts.push(Buffer.from(values))
    return this
  }
  u16(...values) {
    return this.words(values)
  }
  /** As many as the largest font has: too many to be handed over one by one. */
  words(values) {
    const part = Buffer.alloc(2 * values.length)
    for (const [at, value] of values.entries()) part.writeUInt16BE(value & 0xffff, 2 * at)
    this.#parts.push(part)
    return this
  }
  u32(...values) {
    return this.longs(values)
  }
  longs(values) {
    const part = Buffer.alloc(4 * values.length)
    for (const [at, value] of values.entries()) part.writeUInt32BE(value >>> 0, 4 * at)
    this.#parts.push(part)
    return this
  }
  text(text) {
    this.#parts.push(Buffer.from(text, 'latin1'))
    return this
  }
  done() {
    return Buffer.concat(this.#parts)
  }
}

/** Glyph 0 is .notdef; then the characters' glyphs in order; then the others. */
function characters() {
  const groups = []
  let glyph = 1
  for (const [first, last] of RANGES) {
    const end = Math.min(last, first + (CODED - glyph))
    if (end < first) break
    groups.push([first, end, glyph])
    glyph += end - first + 1
  }
  return { groups, coded: glyph }
}

function nameOf(glyph, groups, coded) {
  if (glyph === 0) return '.notdef'
  if (glyph >= coded) return `alt.${String(glyph).padStart(5, '0')}`
  const [first, , from] = groups.findLast((group) => group[2] <= glyph)
  const code = first + glyph - from
  const sign = String.fromCodePoint(code)
  if (/[A-Za-z]/.test(sign)) return sign
  return code > 0xffff ? `u${code.toString(16).toUpperCase()}` : `uni${code.toString(16).toUpperCase().padStart(4, '0')}`
}

/** Two rings of straight lines, no two glyphs alike. */
function outline(glyph) {
  if (glyph === 1) return Buffer.alloc(0)
  const corners = 3 + (glyph % 6)
  const [width, height] = [250 + (glyph % 5) * 80, 620 + ((glyph * 7) % 90)]
  const ring = (shrink, turns) =>
    Array.from({ length: corners }, (_, at) => {
      const angle = (2 * Math.PI * turns * at) / corners + glyph * 0.37
      return [
        Math.round(60 + width / 2 + (width / 2) * shrink * Math.cos(angle)),
        Math.round(height / 2 + (height / 2) * shrink * Math.sin(angle)),
      ]
    })
  const points = [...ring(1, 1), ...ring(0.55, -1)]
  const xs = points.map(([x]) => x)
  const ys = points.map(([, y]) => y)
  const bytes = new Bytes()
  bytes.u16(2, Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys))
  bytes.u16(corners - 1, 2 * corners - 1, 0).u8(...points.map(() => 1))
  const steps = (values) => values.map((value, at) => value - (values[at - 1] ?? 0))
  bytes.u16(...steps(xs)).u16(...steps(ys))
  const data = bytes.done()
  return Buffer.concat([data, Buffer.alloc(-data.length & 3)])
}

export function forged(family = 'Forged Largest') {
  const { groups, coded } = characters()
  const glyphs = Array.from({ length: MOST }, (_, glyph) => outline(glyph))
    let at = 0
  const ends = glyphs.map((glyph) => {
    at += glyph.length
    return at
  })
  const loca = new Bytes().longs([0, ...ends])
  const hmtx = new Bytes().words(glyphs.flatMap((_, glyph) => [370 + (glyph % 5) * 80, 60]))
  const cmap = new Bytes()
    .u16(0, 1, 3, 10)
    .u32(12)
    .u16(12, 0)
    .u32(16 + 12 * groups.length, 0, groups.length, ...groups.flat())
  const names = new Bytes()
  for (let glyph = 0; glyph <= NAMED; glyph += 1) {
    const name = nameOf(glyph, groups, coded)
    names.u8(name.length).text(name)
  }
  const indices = Array.from({ length: MOST }, (_, glyph) => 258 + Math.min(glyph, NAMED))
  const post = new Bytes().u32(0x20000, 0, 0, 0, 0, 0, 0, 0).words([MOST, ...indices])
  const said = [
    [1, family],
    [2, 'Regular'],
    [4, `${family} Regular`],
    [6, family.replaceAll(' ', '')],
  ]
  const name = new Bytes().u16(0, said.length, 6 + 12 * said.length)
  let offset = 0
  for (const [id, text] of said) {
    name.u16(3, 1, 0x409, id, 2 * text.length, offset)
    offset += 2 * text.length
  }
  for (const [, text] of said) name.u16(...[...text].map((sign) => sign.charCodeAt(0)))
  const tables = {
    'OS/2': new Bytes()
      .u16(4, 600, 400, 5, 0, 650, 700, 0, 140, 650, 700, 0, 480, 50, 250, 0)
      .u8(...Array(10).fill(0))
      .u32(0, 0, 0, 0)
      .text('NONE')
      .u16(0x40, 0x20, 0xffff, 800, -200, 90, 900, 250)
      .u32(0, 0)
      .u16(500, 700, 0, 0x20, 2)
      .done(),
    cmap: cmap.done(),
    glyf: Buffer.concat(glyphs),
    head: new Bytes()
      .u32(0x10000, 0x10000, 0, 0x5f0f3cf5)
      .u16(3, 1000)
      .u32(0, 0, 0, 0)
      .u16(0, 0, 800, 720, 0, 8, 2, 1, 0)
      .done(),
    hhea: new Bytes().u32(0x10000).u16(900, -250, 90, 800, 0, 0, 800, 1, 0, 0, 0, 0, 0, 0, 0, MOST).done(),
    hmtx: hmtx.done(),
    loca: loca.done(),
    maxp: new Bytes().u32(0x10000).u16(MOST, 16, 2, 0, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0).done(),
    name: name.done(),
    post: Buffer.concat([post.done(), names.done()]),
  }
  const tags = Object.keys(tables).toSorted()
  const head = new Bytes().u32(0x10000).u16(tags.length, 128, 3, 16 * tags.length - 128)
  let place = 12 + 16 * tags.length
  for (const tag of tags) {
    head.text(tag.padEnd(4)).u32(0, place, tables[tag].length)
    place += (tables[tag].length + 3) & ~3
  }
  return Buffer.concat([
    head.done(),
    ...tags.flatMap((tag) => [tables[tag], Buffer.alloc(-tables[tag].length & 3)]),
  ])
}
