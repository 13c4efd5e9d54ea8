/** Words of a promise date and its picture. */
export const plan = {
  'plan.picture': '{title}: ready {when}. {way}',
  'plan.vehicle': 'The vehicle',
  'plan.ready': 'ready {day}',
  'plan.ready.words': 'Ready {when}',
  'plan.here': 'vehicle here',
  'plan.work': 'work',
  'plan.wait': 'waiting',
  'plan.arrives': 'arrives',
  'plan.closed': 'closed',
  'plan.way': 'The way there',
  'plan.coming': 'What comes when',
  'plan.coming.no': 'No.',
  'plan.slide': 'The days in a row; slide sideways for more.',
} as const
