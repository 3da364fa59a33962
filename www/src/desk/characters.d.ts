/** Made by build/characters.ts: letters, and punctuation with figures, by CLDR's codes of languages. */
declare module 'virtual:characters' {
  const table: Readonly<Record<string, readonly [letters: string, signs: string]>>
  export default table
}
