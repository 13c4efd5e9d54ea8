// The explanation of a figure: the rule in plain words, then the worked numbers of one line.
export interface Step {
  words: string
  figure: string
}

export interface ExplanationText {
  title: string
  rule: readonly string[]
  steps: readonly Step[]
  result?: string | null
}
