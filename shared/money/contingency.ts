/**
 * Contingency: what is kept back for what nobody thought of, a percentage on top of the money for parts. Where a budget
 * is set it is the ceiling with the contingency in it; else the phases' budgets are the money for parts.
 */
import type { BuildHead } from '../contract/build.ts';
import type { Contingency } from '../contract/plan-money.ts';
import { rounded } from './rounding.ts';

/** @param budgets the sum of the phases' budgets. @param plan the sum of the phases' plans */
export function contingencyOf(
  { budget, contingencyPercent: percent }: Pick<BuildHead, 'budget' | 'contingencyPercent'>,
  budgets: number,
  plan: number,
  forecast: number,
): Contingency {
  const forParts = budget === null ? budgets : rounded((budget * 100) / (100 + percent));
  const ceiling = budget ?? budgets + rounded((budgets * percent) / 100);
  const amount = ceiling - forParts;
  const used = Math.max(0, forecast - forParts);
  return {
    percent,
    ceiling,
    forParts,
    amount,
    used,
    usedByPlan: Math.max(0, plan - forParts),
    left: amount - used,
  };
}
