declare module '*.ftl' {
  const catalogue: import('../text/text').Catalogue
  export default catalogue
}
