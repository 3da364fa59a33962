// Prints the size of each file, as it is and as a host sends it with brotli.
import { readFileSync } from 'node:fs'
import { brotliCompressSync, constants } from 'node:zlib'

for (const file of process.argv.slice(2)) {
  const bytes = readFileSync(file)
  const sent = brotliCompressSync(bytes, {
    params: {
      [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY,
      [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
    },
  })
  console.log(`${bytes.length} ${sent.length}`)
}
