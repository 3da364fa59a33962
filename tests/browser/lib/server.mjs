import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { createServer } from 'node:http'
import { extname, join, normalize, sep } from 'node:path'

const kinds = {
  '.css': 'text/css',
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
  '.webmanifest': 'application/manifest+json',
}

/**
 * Serves a folder on loopback, as any static host would. What is `sent` of a file may be said: bytes, and the
 * encoding that they have, or nothing for the file as it is.
 */
export async function serve(folder, sent = async () => null) {
  const server = createServer(async (request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, 'http://host').pathname))
    const file = join(folder, path.endsWith(sep) ? join(path, 'index.html') : path)
    const found = file.startsWith(normalize(folder)) && (await stat(file).catch(() => null))
    if (!found || !found.isFile()) {
      response.writeHead(404).end()
      return
    }
    const type = { 'content-type': kinds[extname(file)] ?? 'application/octet-stream' }
    const other = await sent(file)
    if (other) {
      const encoding = other.encoding ? { 'content-encoding': other.encoding } : {}
      response.writeHead(200, { ...type, ...encoding, 'content-length': other.bytes.length }).end(other.bytes)
      return
    }
    response.writeHead(200, { ...type, 'content-length': found.size })
    createReadStream(file).pipe(response)
  })
  await new Promise((resolve) => server.listen(0, '127.0.0.1', resolve))
  return {
    address: `http://127.0.0.1:${server.address().port}/`,
    close: () => new Promise((resolve) => server.close(resolve)),
  }
}
