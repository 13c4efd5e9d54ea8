/** Words of the Bay. */
export const bay = {
  'bay.title': 'Bay',
} as const
