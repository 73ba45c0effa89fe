/**
 * What is in hand and waits: until when it can still go back, and when it goes off. Both run from the first delivery, so
 * that the earlier day is named; a line whose tasks are all finished waits no more.
 */
import type { Keeping } from '../contract/plan.ts';
import type { Purchase, PurchaseLine } from '../contract/purchase.ts';
import { dayNumber, dayText } from '../time/days.ts';
import type { Use } from './use.ts';

/** @param usesOf per line key: the unfinished tasks that need it */
export function keepingOf(
  purchase: Purchase,
  usesOf: ReadonlyMap<string, readonly Use[]>,
  asOfDay: number,
): Keeping[] {
  return purchase.lines.flatMap((line): Keeping[] => {
    const came = cameOn(purchase, line);
    if (came === null || (line.returnDays === null && line.shelfLifeDays === null)) return [];
    const uses = usesOf.get(line.key) ?? [];
    if (line.neededBy.length > 0 && uses.length === 0) return [];
    const days = (list: readonly (number | null)[]) => list.filter((day) => day !== null);
    const [starts, finishes] = [days(uses.map(({ start }) => start)), days(uses.map(({ finish }) => finish))];
    const usedFrom = starts.length === 0 ? null : Math.min(...starts);
    const usedUp = finishes.length === 0 ? null : Math.max(...finishes);
    const window = line.returnDays === null || line.returnDays === 0 ? null : came + line.returnDays;
    // Cut, glued or half used: nobody takes it back.
    const begun = usesBegan(line, uses);
    const returnBy = window === null || window < asOfDay || begun ? null : window;
    const goesOff = line.shelfLifeDays === null ? null : came + line.shelfLifeDays;
    if (returnBy === null && goesOff === null) return [];
    return [
      {
        line: line.key,
        returnBy: text(returnBy),
        goesOff: text(goesOff),
        usedFrom: text(usedFrom),
        usedUp: text(usedUp),
        untried: returnBy !== null && usedFrom !== null && returnBy < usedFrom,
        spoils: goesOff !== null && goesOff < Math.max(usedUp ?? asOfDay, asOfDay),
      },
    ];
  });
}

/** One of its tasks is under way, or finished while others still need it. */
function usesBegan({ neededBy }: PurchaseLine, uses: readonly Use[]): boolean {
  return uses.some(({ begun }) => begun) || uses.length < neededBy.length;
}

/** The first day any of it came; null: none of it is here, or nobody wrote down when. */
function cameOn({ deliveries, returns }: Purchase, { key }: PurchaseLine): number | null {
  const came = deliveries.filter(({ line }) => line === key);
  const sum = (list: readonly { readonly quantity: number }[]) =>
    list.reduce((all, one) => all + one.quantity, 0);
  if (came.length === 0 || sum(returns.filter(({ line }) => line === key)) >= sum(came) - 1e-9) return null;
  return Math.min(...came.map(({ on }) => dayNumber(on)));
}

function text(day: number | null): string | null {
  return day === null ? null : dayText(day);
}
