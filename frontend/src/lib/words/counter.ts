/** Words of the Counter. */
export const counter = {
  'counter.title': 'Counter',
} as const
