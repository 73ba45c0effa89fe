/** The weeks of the rhythm as the chart lays them: worked and planned in one row, and the outline of the planned ones. */
import type { Rhythm } from '#shared/progress/rhythm.ts';
import type { PlannedWeek, WorkedWeek } from '#shared/progress/weeks.ts';

export interface ShownWeek {
  /** Its Monday. */
  readonly from: string;
  readonly worked: WorkedWeek | null;
  readonly planned: PlannedWeek | null;
  readonly away: boolean;
}

/** All weeks, or so many around the running one, a third of them before it. */
export function shownWeeks({ worked, planned }: Rhythm, most: number): ShownWeek[] {
  const byMonday = new Map<string, ShownWeek>();
  for (const one of worked)
    byMonday.set(one.from, { from: one.from, worked: one, planned: null, away: false });
  for (const one of planned) {
    const known = byMonday.get(one.from);
    byMonday.set(one.from, { from: one.from, worked: known?.worked ?? null, planned: one, away: one.away });
  }
  const all = [...byMonday.values()].toSorted((a, b) => (a.from < b.from ? -1 : 1));
  if (all.length <= most) return all;
  const running = Math.max(
    0,
    all.findIndex(({ planned: one }) => one !== null),
  );
  const first = Math.max(0, Math.min(running - Math.ceil(most / 3), all.length - most));
  return all.slice(first, first + most);
}

/** One stepped line over the weeks that have a value, down to the ground at both ends. */
export function stepPath(
  values: readonly (number | null)[],
  x: (index: number) => number,
  y: (minutes: number) => number,
): string {
  const n = (value: number) => +value.toFixed(1);
  let path = '';
  let isOpen = false;
  values.forEach((value, i) => {
    if (value === null) {
      if (isOpen) path += `V${n(y(0))}`;
      isOpen = false;
      return;
    }
    path += isOpen ? `V${n(y(value))}` : `M${n(x(i))} ${n(y(0))}V${n(y(value))}`;
    path += `H${n(x(i + 1))}`;
    isOpen = true;
  });
  return isOpen ? `${path}V${n(y(0))}` : path;
}
