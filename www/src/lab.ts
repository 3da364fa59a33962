import init, { Lab } from './core/counterpoise_web.js'
import address from './core/counterpoise_web_bg.wasm?url'
import type { Refusal } from './generated/Refusal'

export { Lab }

/** Fetches and compiles the WebAssembly module. Labs can be made after it. */
export async function loadLab(): Promise<void> {
  await init({ module_or_path: address })
}

/** True for what the lab throws on purpose; anything else is a crash. */
export function isRefusal(error: unknown): error is Refusal {
  return (
    typeof error === 'object' &&
    error !== null &&
    !(error instanceof Error) &&
    'sentence' in error &&
    typeof error.sentence === 'string'
  )
}
