// Three answers to when a vehicle comes: it is here, on a day that was named, or no answer (we propose a day).
export interface Here {
  here: boolean
  here_from: string | null
}

// A date that is typed digit by digit passes through years long ago; as the field is left it is what was meant.
const COMPLETE = /^[1-9]\d{3}-/

/** Whether a day in the field is whole, or the field is left as it is. */
export const isWhole = (day: string, left: boolean): boolean => left || !day || COMPLETE.test(day)

export const isSame = (first: Here, second: Here): boolean =>
  first.here === second.here && first.here_from === second.here_from
