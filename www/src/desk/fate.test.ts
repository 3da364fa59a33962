import { expect, it } from 'vitest'
import { fate } from './fate'
import { finding } from './testing'

it('tells settled, better, as before, worse and new apart', () => {
  const before = [finding('A'), finding('B'), finding('C'), finding('D'), finding('E')]
  const after = [
    finding('B', { difference: 20 }),
    finding('C', { difference: 45 }),
    finding('D', { difference: -70 }),
    // Still there, and too faint to be told: that is settled.
    finding('E', { byChance: 4 }),
    finding('F'),
    finding('G', { byChance: 4 }),
    finding('A', { cause: 'raised' }),
  ]
  expect(fate(before, after, 1).map(({ letter, cause, fate: of }) => `${letter} ${cause} ${of}`)).toEqual([
    'A width settled',
    'B width better',
    'C width same',
    'D width worse',
    'E width settled',
    'F width new',
    'A raised new',
  ])
})
