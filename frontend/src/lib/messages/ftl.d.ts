declare module '*.ftl' {
  const catalogue: import('../text').Catalogue
  export default catalogue
}
