// Where things are kept within the app: the one list of addresses that screens link to.
import { session } from './session.svelte'

const within = (rest: string) => `/${session.slug}/${rest}`

export const address = {
  quote: (id: string) => within(`counter/quotes/${id}`),
  list: (id: string) => within(`parts/lists/${id}`),
  job: (id: string) => within(`bay/jobs/${id}`),
  kit: (id: string) => within(`office/kits/${id}`),
  file: (id: string) => within(`office/files/${id}`),
}
