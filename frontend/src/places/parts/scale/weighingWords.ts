// Words the result of a bag on the scale and how it was worked out.
import { Exact } from '../../../calc/exact'
import type { Weighed, Weighing, Workings } from '../../../calc/weighing'
import type { ExplanationText, Step } from '../../../lib/figures/explanation'
import { plain } from '../../../lib/text/decimals'
import { t } from '../../../lib/text/text'
import type { Fault, OnScale } from './bagOnScale.svelte'

type Result = Weighed & Workings

const grams = (n: string) => t('weigh.grams', { n: plain(n) })

/** Words the number of pieces, and why it can or cannot be trusted. */
export function verdictWords(result: Result): { says: string; why: string } {
  const { count, difference, threeSd, steady, either, estimate } = result
  if (count !== null) {
    const n = count
    const apart = Math.abs(difference ?? 0)
    const says = difference
      ? t(difference < 0 ? 'weigh.short' : 'weigh.over', { n, apart })
      : t('weigh.all_here', { n })
    return { says, why: t('weigh.sure', { n: plain(threeSd) }) }
  }
  if (!steady) return { says: t('weigh.cannot', { n: either }), why: t('weigh.cannot.remedy') }
  return { says: t('weigh.between', { estimate: plain(estimate) }), why: t('weigh.between.cause') }
}

/** Words the fault of a figure and its remedy. */
export function faultWords({ figure, code }: Fault, { typed, step, pieces }: OnScale): string {
  if (code === 'small') return t('weigh.fault.small', { n: pieces })
  if (code === 'nothing') return t('weigh.fault.nothing')
  if (code === 'tare') return t('weigh.fault.tare', { all: grams(typed.all), tare: grams(typed.tare) })
  return t('weigh.fault.step', { mass: grams(typed[figure]), step: grams(step) })
}

/** Returns the rule and the worked numbers of this bag. */
export function weighedExplained(title: string, weighing: Weighing, result: Result): ExplanationText {
  const { count } = result
  return {
    title,
    rule: [t('weigh.how.rule.piece'), t('weigh.how.rule.spread'), t('weigh.how.rule.trust')],
    steps: [...stepsToCount(weighing, result), ...stepsToTrust(weighing, result)],
    result: count === null ? t('weigh.how.by_hand') : t('weigh.how.pieces', { n: count }),
  }
}

function stepsToCount(weighing: Weighing, { piece, net, estimate }: Result): Step[] {
  const { sample_count: n, sample_mass: mass, batch_mass: all, tare = '0' } = weighing
  return [
    step(t('weigh.how.piece', { mass: plain(mass), n }), grams(piece)),
    ...(net !== all ? [step(t('weigh.how.net', { all: plain(all), tare: plain(tare) }), grams(net))] : []),
    step(t('weigh.how.estimate', { net: plain(net), piece: plain(piece) }), estimate),
  ]
}

function stepsToTrust(weighing: Weighing, result: Result): Step[] {
  const { sample_count: n, scale_step, piece_variation } = weighing
  const { estimate, piece, fromPieces, fromScale, sd, threeSd, off } = result
  const percent = percentOf(piece_variation)
  return [
    step(t('weigh.how.pieces_apart', { percent, estimate, n }), fromPieces),
    step(
      t('weigh.how.scale_apart', { step: plain(scale_step), piece: plain(piece), estimate, n }),
      fromScale,
    ),
    step(t('weigh.how.sd', { pieces: fromPieces, scale: fromScale }), sd),
    step(t('weigh.how.three'), threeSd),
    step(t('weigh.how.off'), off),
  ]
}

/** Formats a share as per cent: "0.005" is 0.5 %. */
export function percentOf(share: string): string {
  return Exact.read(share).times(Exact.of(100n)).plain(1)
}

const step = (words: string, figure: string): Step => ({ words, figure })
