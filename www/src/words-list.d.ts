/** Made by build/words.mjs: common English words that show every pair of letters between them. */
declare module 'virtual:words' {
  const words: readonly string[]
  export default words
}
