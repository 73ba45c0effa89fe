/** The phases one buys for just now: those under way first, then those not begun, then the rest; each in their order. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Plan } from '#shared/contract/plan.ts';

export function likelyPhases({ phases }: Pick<BuildFile, 'phases'>, plan: Plan): string[] {
  const rank = (key: string) => {
    const { tasks, finished, logged } = plan.progress.phases[key]!;
    if (tasks > 0 && finished === tasks) return 2;
    return finished > 0 || logged > 0 ? 0 : 1;
  };
  return phases.map(({ key }) => key).toSorted((a, b) => rank(a) - rank(b));
}
