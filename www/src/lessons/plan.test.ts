import { describe, expect, it } from 'vitest'
import { lessonNames } from './lesson-words'
import { fromFile, fromLink, type Lesson, Refused, toFile, toLink, usual } from './plan'

const set: Lesson = {
  lesson: 'halves',
  text: 'BÉ&S',
  out: -0.35,
  turned: true,
  note: 'Look at #2 & say why.',
}

describe('a lesson handed on', () => {
  it('comes back from a link as it was', () => {
    for (const lesson of [set, ...lessonNames.map(usual)]) expect(fromLink(toLink(lesson))).toEqual(lesson)
  })

  it('comes back from a file as it was', async () => {
    expect(await fromFile(toFile(set))).toEqual(set)
  })

  it('holds nothing of a font', async () => {
    const said = await toFile(set).text()
    expect(Object.keys(JSON.parse(said)).sort()).toEqual(
      ['format', 'lesson', 'note', 'out', 'text', 'turned', 'version'].sort(),
    )
  })

  it.each([
    ['no lesson', '#lesson=nothing'],
    ['an empty name', '#lesson='],
    ['another of the object’s own names', '#lesson=__proto__'],
    ['a number that is none', '#lesson=bars&out=NaN'],
    ['a number without end', '#lesson=bars&out=1e999'],
    ['a number beyond the slider', '#lesson=bars&out=7'],
    ['a text as long as a book', `#lesson=bars&text=${'n'.repeat(100_000)}`],
    ['a note as long as a book', `#lesson=bars&note=${'n'.repeat(100_000)}`],
  ])('refuses a link with %s in a sentence', (_, link) => {
    expect(() => fromLink(link)).toThrow(Refused)
    expect(() => fromLink(link)).toThrow(/\.$/)
  })

  it('keeps no more letters than a screen shows, and no controls', () => {
    expect(fromLink(`#lesson=bars&text=${'H'.repeat(40)}`).text).toBe('H'.repeat(12))
    expect(fromLink(`#lesson=bars&text=${encodeURIComponent('\u202eH\u0000E')}`).text).toBe('HE')
  })

  it.each([
    ['no JSON', '<svg>'],
    ['JSON of something else', '[1,2]'],
    ['null', 'null'],
    ['another format', '{"format":"desk","version":1,"lesson":"bars"}'],
    ['a lesson that is none', '{"format":"counterpoise-lesson","version":1,"lesson":"constructor"}'],
    ['a text that is none', '{"format":"counterpoise-lesson","version":1,"lesson":"bars","text":{"a":1}}'],
    ['too much', `{"format":"counterpoise-lesson","version":1,"lesson":"bars","x":"${'x'.repeat(70_000)}"}`],
  ])('refuses a file with %s in a sentence', async (_, said) => {
    await expect(fromFile(new Blob([said]))).rejects.toThrow(Refused)
  })

  it('says so of a file from a newer page', async () => {
    const newer = new Blob(['{"format":"counterpoise-lesson","version":2,"lesson":"bars"}'])
    await expect(fromFile(newer)).rejects.toThrow(/newer/)
  })
})
