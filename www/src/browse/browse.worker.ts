/** The worker of all letters: lists a font, finds letters in it, draws them. */

import '../worker/no-network'
import { AllLetters, initSync } from '../core/counterpoise_browse.js'
import type { Ask, List, Question, Reply } from './protocol'

interface Scope {
  postMessage(reply: Reply, transfer?: Transferable[]): void
  onmessage: ((event: MessageEvent<Ask>) => void) | null
}

const scope = globalThis as unknown as Scope

let letters: AllLetters | undefined

const open = (): AllLetters => {
  if (!letters) throw new Error('No font is open.')
  return letters
}

scope.onmessage = ({ data: { job, question } }) => {
  try {
    const { value, transfer = [] } = answerTo(question)
    scope.postMessage({ kind: 'done', job, value }, transfer)
  } catch (error) {
    // A trap is a crash, after which nothing here can be trusted: the page hears of it as of one.
    if (error instanceof WebAssembly.RuntimeError) throw error
    const sentence = error instanceof Error ? error.message : String(error)
    scope.postMessage({ kind: 'refused', job, sentence })
  }
}

function answerTo(question: Question): { value: unknown; transfer?: Transferable[] } {
  switch (question.kind) {
    case 'open': {
      initSync({ module: question.module })
      letters = new AllLetters(question.bytes)
      return listed(letters)
    }
    case 'names':
      return { value: open().learnNames(question.text) }
    case 'find': {
      const found = open().find(question.typed)
      return { value: found, transfer: [found.buffer] }
    }
    case 'draw':
      return { value: open().drawings(question.glyphs) }
  }
}

function listed(letters: AllLetters): { value: List; transfer: Transferable[] } {
  const [unitsPerEm = 1000, above = 1, below = 0] = letters.measure()
  const value: List = {
    codes: letters.codes(),
    glyphs: letters.glyphs(),
    advances: letters.advances(),
    sections: letters.sections(),
    leftOut: letters.leftOut(),
    unitsPerEm,
    above,
    below,
  }
  return { value, transfer: [value.codes.buffer, value.glyphs.buffer, value.advances.buffer] }
}
