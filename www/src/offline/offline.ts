/** Without a network, and with the operating system's 'open with'. */

import { choose } from '../files'
import { session } from '../session'

interface LaunchQueue {
  setConsumer(take: (launched: { files: readonly { getFile(): Promise<File> }[] }) => void): void
}

/** Once the page is at rest its own files are kept, for a visit without a network. */
export function keepForOffline(): void {
  const begin = () => {
    navigator.serviceWorker?.register('./service-worker.js').catch((error: unknown) => {
      // Private windows and some hosts allow none; the page works all the same.
      console.info(error)
    })
  }
  if (document.readyState === 'complete') begin()
  else window.addEventListener('load', begin, { once: true })
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
