/**
 * The page's security policy does not reach into a worker. Whoever is handed
 * fonts has no business with any network: imported first, this gives up every
 * way there.
 */
for (const way of ['fetch', 'XMLHttpRequest', 'WebSocket', 'WebTransport', 'EventSource', 'importScripts']) {
  Object.defineProperty(globalThis, way, { value: undefined, configurable: false, writable: false })
}
