// The names of cartons and bags.
import { t } from './text'

const WORDS = /^\p{L}{3}/u // "Bag A: seals" is a name in itself, "1-02" is not

export function cartonName(label: string): string {
  if (!label) return t('box.loose')
  return WORDS.test(label) ? label : t('box.carton', { label })
}

export function bagName({ label, carton }: { label: string; carton: string }): string {
  if (label) return WORDS.test(label) ? label : t('box.bag', { label })
  return carton ? t('box.bag.loose', { label: carton }) : t('box.bag.loose.alone')
}
