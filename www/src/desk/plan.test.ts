import { describe, expect, it } from 'vitest'
import {
  charactersOf,
  charactersOfLanguage,
  charactersOfSet,
  featureWords,
  languages,
  missing,
  missingWords,
} from './plan'

const has = (text: string, letters: string): boolean => [...letters].every((letter) => text.includes(letter))

describe('what a language is written with', () => {
  // Each alphabet as its own country's authority gives it.
  it.each([
    ['pl', 'ąćęłńóśźżĄĆĘŁŃÓŚŹŻ'],
    ['cs', 'áčďéěíňóřšťúůýžÁČĎÉĚÍŇÓŘŠŤÚŮÝŽ'],
    ['tr', 'çğıiöşüÇĞIİÖŞÜ'],
    ['de', 'äöüßÄÖÜ'],
    ['vi', 'ăâđêôơưạệĂÂĐÊÔƠƯẠỆ'],
    ['el', 'αβγδεζηθικλμνξοπρστυφχψωΑΒΓΔΩ'],
    ['ru', 'абвгдеёжзийклмнопрстуфхцчшщъыьэюяЁЖЩЪЮЯ'],
  ])('%s', (code, letters) => {
    expect(has(charactersOfLanguage(code), letters)).toBe(true)
  })

  it('has no capital that is two letters, no spaces and nothing unseen', () => {
    expect(charactersOfLanguage('de')).not.toContain('SS')
    expect(charactersOfLanguage('fr')).not.toMatch(/[\p{Z}\p{C}]/u)
    expect(languages.length).toBeGreaterThan(150)
    expect(languages.find(({ code }) => code === 'pl')?.name).toBe('Polish')
  })
})

describe('what a character set holds', () => {
  it('as the decoder says: 94 of ASCII and 95 above, the soft hyphen left out', () => {
    expect([...charactersOfSet('iso-8859-1')]).toHaveLength(94 + 94)
    expect([...charactersOfSet('iso-8859-2')]).toHaveLength(94 + 94)
    expect(has(charactersOfSet('iso-8859-1'), '¤¼½¾ÿ')).toBe(true)
    expect(has(charactersOfSet('iso-8859-2'), 'ąłőűț'.normalize('NFC').replace('ț', 'ţ'))).toBe(true)
    expect(has(charactersOfSet('iso-8859-15'), '€ŠšŽžŒœŸ')).toBe(true)
    expect(charactersOfSet('iso-8859-1')).not.toContain('€')
  })
})

describe('what is missing', () => {
  const plan = { languages: ['pl'], sets: [], text: '☞A' }

  it('is told by language, in words', () => {
    const own = charactersOfLanguage('pl').replaceAll(/[ął]/g, '')
    const [polish, list] = missing({ ...plan, languages: ['pl'] }, (one) => own.includes(one)).map(
      missingWords,
    )
    expect(polish).toMatch(/^Polish: 2 of \d+ characters missing: ą ł$/)
    expect(list).toBe('Your own list: 1 of 2 characters missing: ☞')
    expect(missing(plan, () => true).map(missingWords)).toEqual([
      'Polish: complete.',
      'Your own list: complete.',
    ])
  })

  it('is planned once each, letters before signs', () => {
    const all = charactersOf({ languages: ['en', 'pl'], sets: ['iso-8859-2'], text: 'AAA' })
    expect(new Set(all).size).toBe([...all].length)
    expect(all.startsWith('ABC')).toBe(true)
  })
})

it('names a feature and counts what it offers', () => {
  expect(featureWords({ tag: 'liga', ligatures: 5, alternates: 0, contextual: 0 })).toBe(
    'liga, standard ligatures: 5 ligatures',
  )
  expect(featureWords({ tag: 'ss03', ligatures: 0, alternates: 1, contextual: 2 })).toBe(
    'ss03, stylistic set 3: 1 other form, 2 rules by the letters around',
  )
})
