/**
 * Tells the browser in the page's first lines of the files that its program would ask for only once it runs: the
 * WebAssembly and the sample. They then cross the network beside the program, and a round trip is saved. What
 * letters are judged by is not among them: nothing is drawn of it, and it would hold up what is.
 */

/** The bundler's name for it. */
const MODULE = /^assets\/counterpoise_web_bg-.*\.wasm$/

/** Not bundled: it comes as it is, under its own name. */
const SAMPLE = './sample/sample.ttf'

export function ahead() {
  return {
    name: 'ahead',
    apply: 'build',
    transformIndexHtml: {
      order: 'post',
      handler(_html, { bundle }) {
        const found = Object.keys(bundle).filter((name) => MODULE.test(name))
        if (found.length !== 1) throw new Error(`${found.length} files are called ${MODULE}`)
        return [`./${found[0]}`, SAMPLE].map((href) => ({
          tag: 'link',
          // As `fetch` asks for them: another kind of request would not be given what came ahead.
          attrs: { rel: 'preload', as: 'fetch', crossorigin: true, href },
          injectTo: 'head',
        }))
      },
    },
  }
}
