import { beforeEach, expect, test, vi } from 'vitest'
import { HeldLab, type Holder } from './held-lab'
import type { Lab } from './lab'

const CANVAS = {} as HTMLCanvasElement
const DARK = 'dark' as never

/** What was done, in order, and by which of the labs that were made. */
let done: string[]
let made: number
/** Whether the lab of this number crashes at what it is asked. */
let crashes: (lab: number) => boolean
let holder: Holder
let held: HeldLab

/** Stands in for a lab, and says what it does. */
function labOf(number: number): Lab {
  const note = (act: string) => void done.push(`${act} ${number}`)
  return {
    attach: () => note('attach'),
    setTheme: (theme: string) => note(`wear ${theme},`),
    resize: (...size: number[]) => note(`size ${size.join(' ')},`),
    work() {
      if (crashes(number)) throw new WebAssembly.RuntimeError('unreachable')
      note('work')
    },
    fingerprint() {
      if (crashes(number)) throw new WebAssembly.RuntimeError('unreachable')
      return `of ${number}`
    },
  } as unknown as Lab
}

const refuse = () => {
  throw { kind: 'noFont', sentence: 'Open a font first.' }
}

beforeEach(() => {
  vi.spyOn(console, 'error').mockImplementation(() => {})
  done = []
  made = 0
  crashes = (lab) => lab === 1
  holder = {
    make() {
      made += 1
      return labOf(made)
    },
    restore: vi.fn(() => void done.push('restore')),
    refused: vi.fn(),
    mended: vi.fn(() => void done.push('mended')),
    broken: vi.fn(),
  }
  held = new HeldLab(holder)
})

test('before there is a lab nothing is answered, and its size and colours are kept for it', () => {
  held.resize(800, 600, 2)
  held.setTheme(DARK)
  held.tell((lab) => lab.work())
  expect(held.ask((lab) => lab.fingerprint())).toBe(null)
  expect(held.demand((lab) => lab.fingerprint())).toBe(null)
  expect(held.width).toBe(800)
  held.stand(CANVAS)
  expect(done).toEqual(['attach 1', 'wear dark, 1', 'size 800 600 2, 1'])
})

test('after a crash another lab stands as the first did, and is asked once more', () => {
  held.stand(CANVAS)
  held.resize(800, 600, 2)
  held.setTheme(DARK)
  done = []
  expect(held.ask((lab) => lab.fingerprint())).toBe('of 2')
  expect(done).toEqual(['attach 2', 'wear dark, 2', 'size 800 600 2, 2', 'restore', 'mended'])
  expect(holder.broken).not.toHaveBeenCalled()
})

test('what crashes every lab is not asked for ever', () => {
  crashes = () => true
  held.stand(CANVAS)
  expect(held.ask((lab) => lab.fingerprint())).toBe(null)
  expect(made).toBe(3)
})

test('what is to be done is not done twice', () => {
  held.stand(CANVAS)
  held.tell((lab) => lab.work())
  expect(done).not.toContain('work 2')
  held.tell((lab) => lab.work())
  expect(done).toContain('work 2')
})

test('what the lab refuses is no crash', () => {
  held.stand(CANVAS)
  held.tell(refuse)
  expect(holder.refused).toHaveBeenCalledWith('Open a font first.')
  expect(held.ask(refuse)).toBe(null)
  expect(() => held.demand(refuse)).toThrow(expect.objectContaining({ sentence: 'Open a font first.' }))
  expect(made).toBe(1)
})

test('a crash is thrown to whoever demands an answer, once it is mended', () => {
  held.stand(CANVAS)
  expect(() => held.demand((lab) => lab.fingerprint())).toThrow('unreachable')
  expect(holder.mended).toHaveBeenCalledOnce()
  expect(held.demand((lab) => lab.fingerprint())).toBe('of 2')
})

test('a lab that cannot be put back as it was is given up', () => {
  holder.restore = () => {
    throw new WebAssembly.RuntimeError('unreachable')
  }
  held.stand(CANVAS)
  held.tell((lab) => lab.work())
  expect(holder.broken).toHaveBeenCalledOnce()
  expect(holder.mended).not.toHaveBeenCalled()
  expect(held.ask((lab) => lab.fingerprint())).toBe(null)
})
