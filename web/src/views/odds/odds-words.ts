/** Shares as a builder says them, and where to go for what would help. */
import type { OddsDriver } from '#shared/contract/plan-odds.ts';
import { grouped } from '../../drawing/words.ts';

/** "none", "under 1 %", "16 %", "over 99 %", "all". */
export function shareWords(share: number): string {
  if (share <= 0) return 'none';
  if (share >= 1) return 'all';
  const percent = Math.round(100 * share);
  if (percent < 1) return 'under 1\u2009%';
  return percent > 99 ? 'over 99\u2009%' : `${percent}\u2009%`;
}

/** "in none of 2 000 trials", "in 16 % of 2 000 trials". */
export function inTrials(share: number, trials: number): string {
  return `in ${shareWords(share)} of ${grouped(trials)} trials`;
}

export interface Way {
  readonly verb: string;
  /** Parts of the address. */
  readonly to: readonly string[];
}

/** The sheet on which the help can be had. */
export function wayTo({ help, task, purchase }: OddsDriver): Way {
  switch (help) {
    case 'part':
      return { verb: 'Look at the purchase', to: ['purchases', ...(purchase === null ? [] : [purchase])] };
    case 'season':
      return { verb: 'Look at the conditions', to: ['settings', 'conditions'] };
    case 'people':
      return { verb: 'Add a helper', to: ['settings', 'people'] };
    case 'hours':
      return { verb: 'Change the week', to: ['settings', 'people'] };
    default:
      return { verb: 'Look at the task', to: ['task', task] };
  }
}
