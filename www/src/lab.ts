import learned from '../../crate/counterpoise/src/judge/table/learned.bin?url'
import init, { Lab, learn } from './core/counterpoise_web.js'
import address from './core/counterpoise_web_bg.wasm?url'

export { Lab }

export interface Loaded {
  /** The compiled module, for a worker, which then need not fetch it. */
  readonly module: WebAssembly.Module
  /** Fulfilled once the lab knows what it judges by, or that it cannot be had: letters can be drawn before. */
  readonly learned: Promise<void>
}

/** Fetches and compiles the WebAssembly module. Labs can be made after it. */
export async function loadLab(): Promise<Loaded> {
  const module = await compile()
  // Not sooner: the module and the sample would wait for it, and nothing is drawn of it.
  const table = fetchLearned()
  await init({ module_or_path: module })
  const learned = table.then((file) => {
    if (file !== null) learn(file)
  })
  return { module, learned }
}

/** What the lab judges by; without it letters are measured and not judged. */
export async function fetchLearned(): Promise<Uint8Array | null> {
  try {
    const answer = await fetch(learned)
    return answer.ok ? new Uint8Array(await answer.arrayBuffer()) : null
  } catch {
    return null
  }
}

async function compile(): Promise<WebAssembly.Module> {
  const answer = await fetch(address)
  // Hosts that do not know the file's kind send it as another: it is compiled all the same.
  if (answer.headers.get('content-type')?.startsWith('application/wasm')) {
    return WebAssembly.compileStreaming(answer)
  }
  return WebAssembly.compile(await answer.arrayBuffer())
}
