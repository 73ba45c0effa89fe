/** The rows of the money table: the phases in their order and what has none, or the kinds of things. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { MoneyFigures } from '#shared/contract/plan-money.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { capital } from '../../drawing/words.ts';

export interface MoneyRow {
  readonly key: string;
  readonly number: number | null;
  readonly name: string;
  readonly href: string | null;
  /** All its tasks are finished. */
  readonly allIn: boolean;
  readonly figures: MoneyFigures;
}

/** @param href where a phase's name leads */
export function phaseRows(
  { phases }: Pick<BuildFile, 'phases'>,
  { money, progress }: Plan,
  href: (key: string) => string,
): MoneyRow[] {
  const { unsorted } = money;
  const rows = phases.map(({ key, name }, i): MoneyRow => {
    const { tasks, finished } = progress.phases[key]!;
    return {
      key,
      number: i + 1,
      name,
      href: href(key),
      allIn: tasks > 0 && finished === tasks,
      figures: money.phases[key]!,
    };
  });
  const isEmpty = unsorted.forecast === 0 && unsorted.paid === 0 && (unsorted.plan ?? 0) === 0;
  return isEmpty ? rows : [...rows, plain('', 'No phase', unsorted)];
}

export function categoryRows({ money }: Plan): MoneyRow[] {
  return Object.entries(money.categories).map(([key, figures]) => plain(key, capital(key), figures));
}

function plain(key: string, name: string, figures: MoneyFigures): MoneyRow {
  return { key, number: null, name, href: null, allIn: false, figures };
}
