/** The worker: the same module as the page's, an instance of its own, for long measures. */

import './no-network'
import { initSync, SpacingJob, Survey } from '../core/counterpoise_web.js'
import { isRefusal } from '../refusal'
import type { Ask, Reply } from './protocol'
import { space } from './spacing-job'
import { survey } from './survey-job'

/** As much of a worker's surroundings as is used here; the page's own types hide them. */
interface Scope {
  postMessage(reply: Reply): void
  onmessage: ((event: MessageEvent<Ask>) => void) | null
}

const scope = globalThis as unknown as Scope

/** The job at work; another number ends it at its next breath. */
let current = 0

const breath = new MessageChannel()
let inhale: () => void = () => {}
breath.port1.onmessage = () => inhale()

const around = {
  now: () => performance.now(),
  breathe: () =>
    new Promise<void>((resolve) => {
      inhale = resolve
      breath.port2.postMessage(null)
    }),
  post: (reply: Reply) => scope.postMessage(reply),
}

/** The job before has to come to its end first: one font at a time is held. */
let before: Promise<void> = Promise.resolve()

scope.onmessage = ({ data: ask }) => {
  switch (ask.kind) {
    case 'start':
      initSync({ module: ask.module })
      around.post({ kind: 'ready' })
      break
    case 'cancel':
      if (ask.job === current) current = 0
      break
    case 'survey':
    case 'space':
      current = ask.job
      before = before.then(() => work(ask))
      break
  }
}

async function work(ask: Ask & { kind: 'survey' | 'space' }): Promise<void> {
  const stopped = () => current !== ask.job
  if (stopped()) return
  try {
    const bytes = new Uint8Array(ask.bytes)
    if (ask.kind === 'survey') {
      await survey(ask.job, new Survey(bytes, ask.fileName), ask.first, stopped, around)
    } else {
      await space(ask.job, new SpacingJob(bytes, ask.characters), ask.tolerance, stopped, around)
    }
  } catch (error) {
    if (isRefusal(error)) around.post({ kind: 'refused', job: ask.job, sentence: error.sentence })
    else {
      // After a crash what the module holds cannot be trusted.
      console.error(error)
      around.post({ kind: 'crashed' })
    }
  }
}
