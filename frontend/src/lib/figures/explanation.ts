// How a figure is computed: the rule in plain words, then the worked numbers of this very line.
export interface Step {
  words: string
  figure: string
}

export interface Explained {
  title: string
  rule: readonly string[]
  steps: readonly Step[]
  result?: string | null
}
