/** Words of the Parts. */
export const parts = {
  'parts.title': 'Parts',
} as const
