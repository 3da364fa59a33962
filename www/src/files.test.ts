import { describe, expect, it } from 'vitest'
import { choose, fromDrop, MOST_BYTES } from './files'

const file = (name: string, size = 10): File => ({ name, size }) as File

describe('which file is opened', () => {
  it('takes a single one, whatever it is called', () => {
    const only = file('notes.txt')
    expect(choose([only])).toEqual({ file: only, sentence: null })
  })

  it('takes the first that is called like a font, and says what it left', () => {
    const font = file('Face.OTF')
    const arrival = choose([file('read-me.txt'), font, file('other.ttf')])
    expect(arrival.file).toBe(font)
    expect(arrival.sentence).toBe(
      'The stage holds one font at a time: Face.OTF is open, the 2 other files were left alone.',
    )
    expect(choose([font, file('b.ttf')]).sentence).toContain('the other file was left alone')
  })

  it('refuses what no font is as large as', () => {
    const arrival = choose([file('film.mov', MOST_BYTES + 1)])
    expect(arrival.file).toBeNull()
    expect(arrival.sentence).toContain('film.mov is larger than any font')
  })

  it('says so when there is none', () => {
    expect(choose([])).toEqual({
      file: null,
      sentence: 'Nothing in there is a file. Drop a font file (.otf or .ttf).',
    })
  })
})

describe('a drop', () => {
  const transfer = (files: File[], directory: boolean): DataTransfer =>
    ({
      files,
      items: files.map(() => ({ kind: 'file', webkitGetAsEntry: () => ({ isDirectory: directory }) })),
    }) as unknown as DataTransfer

  it('of a folder is refused with a sentence', () => {
    expect(fromDrop(transfer([file('fonts')], true)).sentence).toContain('That is a folder')
  })

  it('of a file opens it', () => {
    const font = file('a.ttf')
    expect(fromDrop(transfer([font], false)).file).toBe(font)
  })
})
