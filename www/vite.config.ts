import { defineConfig } from 'vitest/config'
import { ahead } from './build/ahead.mjs'
import { characters } from './build/characters.mjs'
import { names } from './build/names.mjs'
import { offline } from './build/offline.mjs'
import { words } from './build/words.mjs'

export default defineConfig({
  // Relative addresses: the built page works from any folder of any static host.
  base: './',
  plugins: [characters(), words(), names(), ahead(), offline()],
  build: {
    target: 'es2022',
    // The content security policy admits no inlined scripts or fonts.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: true,
    // What is fetched at once and what later: the byte budget is told apart by it.
    manifest: true,
    rolldownOptions: {
      output: {
        // What the first picture takes is one file: a browser asks a plain host for six files at a time, and the
        // WebAssembly would wait behind pieces of a kilobyte.
        codeSplitting: { groups: [{ name: 'lab', tags: ['$initial'] }] },
      },
    },
  },
  worker: { format: 'es' },
  test: {
    include: ['src/**/*.test.ts'],
    environment: 'node',
    css: true,
  },
})
