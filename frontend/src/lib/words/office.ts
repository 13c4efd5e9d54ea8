/** Words of the Office. */
export const office = {
  'office.title': 'Office',
} as const
