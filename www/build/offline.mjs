/**
 * Writes the service worker that keeps the page for visits without a network: a
 * bundle of its own beside the page, which knows every file of the build. Files
 * whose names carry their content's hash need no other mark; the rest get one.
 */

import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { build } from 'vite'

const SOURCE = 'src/offline/service-worker.ts'
const NAME = 'service-worker.js'

/** Kept by nobody: what tells the build about itself, and licences of data. */
const LEFT = /^\.vite\/|-licence\.txt$|^service-worker\.js/

export function files(folder) {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((one) => one.isFile())
    .map((one) => relative(folder, join(one.parentPath, one.name)).split(sep).join('/'))
    .filter((name) => !LEFT.test(name))
    .toSorted()
    .map((url) => ({
      url,
      revision: url.startsWith('assets/')
        ? null
        : createHash('sha256')
            .update(readFileSync(join(folder, url)))
            .digest('hex')
            .slice(0, 16),
    }))
}

export function offline() {
  let config
  return {
    name: 'offline',
    apply: 'build',
    configResolved(resolved) {
      config = resolved
    },
    async closeBundle() {
      const { root } = config
      const folder = join(root, config.build.outDir)
      await build({
        configFile: false,
        root,
        logLevel: 'warn',
        publicDir: false,
        define: {
          FILES: JSON.stringify(files(folder)),
          'process.env.NODE_ENV': '"production"',
        },
        build: {
          outDir: folder,
          emptyOutDir: false,
          copyPublicDir: false,
          target: 'es2022',
          lib: { entry: join(root, SOURCE), formats: ['iife'], name: 'worker', fileName: () => NAME },
        },
      })
    },
  }
}
