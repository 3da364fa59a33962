import { execFileSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fonts, root } from './place.mjs'

/** Six fonts of other people's, of six kinds; tests/reference/fonts.toml says from which packages. */
export const six = [
  { kind: 'sans', id: 'dejavu', file: 'dejavu.ttf', family: 'DejaVu Sans' },
  { kind: 'serif', id: 'ebgaramond', file: 'ebgaramond.otf', family: 'EB Garamond' },
  { kind: 'slab', id: 'roboto-slab', file: 'roboto-slab.otf', family: 'Roboto Slab' },
  { kind: 'script', id: 'dancingscript', file: 'dancingscript.otf', family: 'Dancing Script' },
  { kind: 'decorative', id: 'cabinsketch', file: 'cabinsketch.ttf', family: 'Cabin' },
  { kind: 'cff', id: 'heros', file: 'heros.otf', family: 'TeX Gyre Heros' },
]

/** A font's bytes; fetches all of them if it is not there. */
export function font(file) {
  const path = join(fonts, file)
  if (!existsSync(path)) {
    execFileSync('cargo', ['run', '--quiet', '-p', 'counterpoise-checks', '--bin', 'fetch-fonts'], {
      cwd: root,
      stdio: ['ignore', 'inherit', 'inherit'],
    })
  }
  return readFileSync(path)
}

/** Where a table of a font stands, from its directory. */
export function table(bytes, tag) {
  for (let index = 0; index < bytes.readUInt16BE(4); index += 1) {
    const record = 12 + 16 * index
    if (bytes.toString('latin1', record, record + 4) === tag) {
      return { offset: bytes.readUInt32BE(record + 8), length: bytes.readUInt32BE(record + 12) }
    }
  }
  throw new Error(`no table ${tag}`)
}

/** Files that nobody can open, each made here. */
export function broken() {
  const whole = font('dejavu.ttf')
  const damaged = Buffer.from(whole)
  const head = table(damaged, 'head')
  damaged.fill(0xff, head.offset, head.offset + head.length)
  const lost = Buffer.from(whole)
  // A directory that sends the reader beyond the file's end for the outlines' places.
  for (let index = 0; index < lost.readUInt16BE(4); index += 1) {
    const record = 12 + 16 * index
    if (lost.toString('latin1', record, record + 4) === 'maxp') lost.writeUInt32BE(0xfffffff0, record + 8)
  }
  return [
    { what: 'a text file', name: 'notes.txt', bytes: Buffer.from('Dear all,\nthe font is nearly done.\n') },
    { what: 'an empty file', name: 'empty.otf', bytes: Buffer.alloc(0) },
    { what: 'a truncated font', name: 'half.ttf', bytes: whole.subarray(0, whole.length >> 1) },
    { what: 'a font whose head table is rubbish', name: 'damaged.ttf', bytes: damaged },
    { what: 'a font whose directory points nowhere', name: 'lost.ttf', bytes: lost },
    { what: 'a picture that calls itself a font', name: 'letter.ttf', bytes: Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJ', 'base64') },
  ]
}
