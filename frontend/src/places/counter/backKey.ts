import { go } from '../../lib/app/router.svelte'
import type { ScreenKey } from '../../lib/app/screenKeys'
import { session } from '../../lib/app/session.svelte'
import { t } from '../../lib/text/text'

/** The key of every screen of the Counter that leads back to its first one. */
export const backKey = (): ScreenKey => ({
  key: 'b',
  says: t('keys.back'),
  act: () => go(`/${session.slug}/counter`),
})
