/**
 * Keeps the page's own files, so that it opens without a network once it has been
 * visited, and an open page goes on with its own version while a newer one is
 * served. It sends nothing and asks for nothing but these files.
 */

import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute } from 'workbox-precaching'
import { registerRoute } from 'workbox-routing'
import { NetworkFirst } from 'workbox-strategies'

/** Every file of this build; put here by build/offline.mjs. */
declare const FILES: { url: string; revision: string | null }[]

/** A network that answers later than this is as good as none, seconds. */
const PATIENCE = 3

cleanupOutdatedCaches()

// The page itself comes from the network where there is one: whoever opens it has the newest.
registerRoute(
  ({ request }) => request.mode === 'navigate',
  new NetworkFirst({
    cacheName: 'counterpoise-page',
    networkTimeoutSeconds: PATIENCE,
    plugins: [{ handlerDidError: () => matchPrecache('index.html') }],
  }),
)

precacheAndRoute(FILES)
