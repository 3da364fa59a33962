import { describe, expect, it } from 'vitest'
import type { Command } from '../generated/Command'
import type { ItemState } from '../generated/ItemState'
import type { StageState } from '../generated/StageState'
import { initialState, type PageState } from '../state'
import { type Desk, groups, type PageCommand } from './command'
import { byId, byKey, command, commandFor, commands, give } from './registry'

const record = (id: string, ...keys: string[]): PageCommand => ({
  id,
  label: id,
  group: 'Page',
  keys,
  enabled: () => true,
  run: () => {},
})

const item = (id: number, change: Partial<ItemState> = {}): ItemState => ({
  id,
  character: 'n',
  glyph: id,
  label: 'n',
  x: 0,
  advance: 500,
  moved: null,
  pinned: false,
  mirrored: false,
  turned: false,
  selected: false,
  ...change,
})

const stage = (change: Partial<StageState> = {}): StageState => ({
  text: 'nn',
  items: [item(1), item(2)],
  missing: [],
  tool: 'letters',
  view: { scale: 1, em: 1000, origin: [0, 0], fitted: true },
  spacing: 'bearings',
  rhythm: null,
  layers: {
    fill: true,
    outline: false,
    points: false,
    strokes: true,
    guides: true,
    strip: true,
    overshoot: false,
    widths: false,
    refit: false,
    flaws: false,
    texture: false,
    findings: true,
    white: false,
  },
  refitWithin: 'half',
  standout: null,
  finding: null,
  blur: 0,
  reading: [],
  calliper: null,
  undo: null,
  redo: null,
  inGesture: false,
  status: '',
  ...change,
})

const page = (change: Partial<StageState> = {}): PageState => ({
  ...initialState,
  phase: 'ready',
  font: { report: {} as never, fileName: 'a.otf', face: null, sample: false },
  stage: stage(change),
})

function desk(
  state: PageState,
): Desk & { readonly asked: Command[]; readonly changes: Partial<PageState>[] } {
  const asked: Command[] = []
  const changes: Partial<PageState>[] = []
  return {
    state,
    reviewing: {
      give: () => {},
      addMark: () => {},
      takeBack: () => {},
      giveAgain: () => {},
      walk: () => {},
      follow: () => {},
      set: () => {},
    },
    surveying: { all: () => {}, stop: () => {}, save: () => {} },
    asked,
    changes,
    apply: (given) => void asked.push(given),
    set: (change) => void changes.push(change),
    pickFile: () => {},
    openSample: () => {},
    positionBack: () => {},
    focus: () => {},
  }
}

const press = (key: string, held: { ctrlKey?: boolean; shiftKey?: boolean } = {}) => ({
  key,
  code: /^[a-z]$/i.test(key) ? `Key${key.toUpperCase()}` : key,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  shiftKey: false,
  ...held,
})

describe('the registry', () => {
  it('has one command a key', () => {
    expect(() => byKey(commands)).not.toThrow()
  })

  it('refuses two commands on one key', () => {
    expect(() => byKey([record('one', 'A'), record('two', 'B', 'A')])).toThrow(
      'A is the key of both one and two',
    )
  })

  it('has one command an id, and refuses two', () => {
    expect(() => byId(commands)).not.toThrow()
    expect(() => byId([record('one'), record('one')])).toThrow('Two commands are called one')
  })

  it('shows every command in some group', () => {
    for (const one of commands) expect(groups).toContain(one.group)
  })

  it('leaves the keys that move the focus alone', () => {
    const keys = commands.flatMap((one) => one.keys)
    for (const key of ['Tab', 'Shift+Tab', 'Enter', 'Space']) expect(keys).not.toContain(key)
  })
})

describe('which command a press gives', () => {
  const onStage = { typing: false, onStage: true }
  const beside = { typing: false, onStage: false }
  const typing = { typing: true, onStage: false }

  it('gives letters everywhere but in a text field', () => {
    expect(commandFor(press('m'), beside, true)?.id).toBe('mirror')
    expect(commandFor(press('m'), typing, true)).toBeUndefined()
  })

  it('gives arrows on the stage alone, so that they scroll elsewhere', () => {
    expect(commandFor(press('ArrowLeft'), onStage, true)?.id).toBe('left')
    expect(commandFor(press('ArrowLeft'), beside, true)).toBeUndefined()
  })

  it('leaves single keys alone where they are put out, and no others', () => {
    expect(commandFor(press('m'), onStage, false)).toBeUndefined()
    expect(commandFor(press('?', { shiftKey: true }), onStage, false)).toBeUndefined()
    expect(commandFor(press('z', { ctrlKey: true }), onStage, false)?.id).toBe('undo')
    expect(commandFor(press('ArrowLeft'), onStage, false)?.id).toBe('left')
  })

  it('opens a file from the text field too', () => {
    expect(commandFor(press('o', { ctrlKey: true }), typing, true)?.id).toBe('open')
    expect(commandFor(press('z', { ctrlKey: true }), typing, true)).toBeUndefined()
  })
})

describe('giving a command', () => {
  it('does not run what cannot be run', () => {
    const it_ = desk(page())
    expect(give('mirror', it_)).toBe(false)
    expect(it_.asked).toEqual([])
  })

  it('moves the chosen letters, or the calliper while it is in hand', () => {
    const letters = desk(page({ items: [item(1, { selected: true })] }))
    give('right-ten', letters)
    expect(letters.asked).toEqual([{ type: 'nudge', steps: 1, step: 'tenUnits' }])
    const calliper = desk(page({ tool: 'calliper' }))
    give('left', calliper)
    expect(calliper.asked).toEqual([{ type: 'moveCalliper', part: 'whole', right: -1, up: 0, step: 'unit' }])
  })

  it('lets go what is pinned, and pins what is half pinned', () => {
    const pinned = desk(page({ items: [item(1, { selected: true, pinned: true })] }))
    give('pin', pinned)
    expect(pinned.asked).toEqual([{ type: 'pin', pinned: false }])
    const half = desk(
      page({ items: [item(1, { selected: true, pinned: true }), item(2, { selected: true })] }),
    )
    give('pin', half)
    expect(half.asked).toEqual([{ type: 'pin', pinned: true }])
  })

  it('switches a layer to what it is not', () => {
    const it_ = desk(page())
    give('show-points', it_)
    give('show-guides', it_)
    expect(it_.asked).toEqual([
      { type: 'showLayer', layer: 'points', shown: true },
      { type: 'showLayer', layer: 'guides', shown: false },
    ])
  })

  it('undoes only when there is a step, and nothing is being dragged', () => {
    expect(command('undo').enabled(page())).toBe(false)
    expect(command('undo').enabled(page({ undo: 'Move R' }))).toBe(true)
    expect(command('undo').enabled(page({ undo: 'Move R', inGesture: true }))).toBe(false)
  })

  it('passes from the whole calliper to its start, its end, and back', () => {
    const state = page({
      calliper: { from: [0, 0], to: [1, 0], length: 1, angle: 0, intervals: [] },
    })
    const next = (part: PageState['calliperPart']) => {
      const it_ = desk({ ...state, calliperPart: part })
      give('calliper-part', it_)
      return it_.changes[0]?.calliperPart
    }
    expect([next('whole'), next('from'), next('to')]).toEqual(['from', 'to', 'whole'])
  })

  it('can do nothing without a font but open one', () => {
    const empty: PageState = { ...initialState, phase: 'ready' }
    const able = commands.filter((one) => one.enabled(empty)).map((one) => one.id)
    expect(able).toEqual(['shelf', 'open', 'sample', 'keys'])
  })
})
