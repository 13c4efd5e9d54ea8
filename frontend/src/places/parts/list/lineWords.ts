// Words the figures of a bag, a carton, a list or its report.
import type { Figures } from '../../../calc/lineFigures'
import type { Shape } from '../../../lib/api/types'
import { t } from '../../../lib/text/text'

const FAULTS = ['count_again', 'wrong_part', 'damaged', 'short', 'over', 'late'] as const

/** Words the numbers of faulty lines: "1 to count again, 2 damaged, 1 short"; empty without faults. */
export function faultWords(figures: Figures): string {
  return FAULTS.filter((name) => figures[name] > 0)
    .map((name) => t(`pull.n.${name}`, { n: figures[name] }))
    .join(', ')
}

/**
 * Words the result of a carton or bag: its faults, or "all here" if all is counted and nothing differs, else nothing.
 */
export function resultWords(figures: Figures): string {
  const faults = faultWords(figures)
  if (faults || figures.not_counted) return faults
  return figures.sealed ? t('pull.n.sealed', { n: figures.sealed }) : t('pull.n.all_here')
}

/** Words the head of a bag or carton, and whether it is all counted and right. `holds`: "7 lines, 2 bags". */
export function boxWords(figures: Figures, holds: string): { words: string; right: boolean } {
  const faults = faultWords(figures)
  if (!faults && figures.not_counted === figures.lines) return { words: holds, right: false }
  const sealed = figures.sealed ? t('pull.n.sealed', { n: figures.sealed }) : ''
  const right = !figures.not_counted && !faults
  const first = figures.not_counted
    ? t('pull.left', { n: figures.not_counted })
    : right
      ? sealed
        ? holds
        : t('pull.n.all_here.holds', { holds })
      : t('pull.n.counted', { n: figures.counted })
  return { words: [first, faults, sealed].filter(Boolean).join(', '), right }
}

/** Words the other figures of the report: "4 differ, 1 to count again, 3 not counted". */
export function reportWords(report: Omit<Shape<'ReportOut'>, 'differences'>): string {
  const others = (['count_again', 'sealed', 'late', 'not_counted'] as const).filter(
    (name) => report[name] > 0,
  )
  return [
    t('report.differ', { n: report.differ }),
    ...others.map((name) => t(`pull.n.${name}`, { n: report[name] })),
  ].join(', ')
}
