/** Made by build/names.mjs: what the Unicode Standard calls characters. */
declare module 'virtual:names' {
  const text: string
  export default text
}
