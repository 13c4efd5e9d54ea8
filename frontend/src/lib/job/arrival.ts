// The arrival of a vehicle: it is here, on a named day, or no answer (the shop proposes a day).
export interface Here {
  here: boolean
  here_from: string | null
}

// Typing a year passes through early years, such as 0002. So a day counts once its year is whole or the field is
// left.
const COMPLETE = /^[1-9]\d{3}-/

/** Returns whether a day in the field is complete, or the field was left. */
export const isWhole = (day: string, left: boolean): boolean => left || !day || COMPLETE.test(day)

export const isSame = (first: Here, second: Here): boolean =>
  first.here === second.here && first.here_from === second.here_from
