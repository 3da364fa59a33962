import { fileURLToPath } from 'node:url'

const at = (path) => fileURLToPath(new URL(`../../../${path}`, import.meta.url))

export const root = at('')
export const dist = at('www/dist/')
/** The module and its bindings, as the page's build finds them. */
export const core = at('www/src/core/')
export const fonts = at('target/test-fonts/')
export const screenshots = at('target/screenshots/')
export const pictures = at('www/pictures/')
