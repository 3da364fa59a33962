/** Without a network, and with the operating system's 'open with'. */

import { choose } from '../files'
import { session } from '../session'

interface LaunchQueue {
  setConsumer(take: (launched: { files: readonly { getFile(): Promise<File> }[] }) => void): void
}

/**
 * Once the page stands its own files are kept, for a visit without a network. Not
 * before: they are three times what the page starts with, and would come in its way.
 */
export function keepForOffline(): void {
  const end = session.store.subscribe(({ phase, opening }) => {
    if (phase === 'starting' || opening !== null) return
    end()
    navigator.serviceWorker?.register('./service-worker.js').catch((error: unknown) => {
      // Private windows and some hosts allow none; the page works all the same.
      console.info(error)
    })
  })
}

/** Takes the files that an installed page is opened with. */
export function takeLaunched(): void {
  const queue = (window as { launchQueue?: LaunchQueue }).launchQueue
  queue?.setConsumer(async ({ files }) => {
    if (files.length > 0) {
      await session.arrive(choose(await Promise.all(files.map((file) => file.getFile()))))
    }
  })
}
