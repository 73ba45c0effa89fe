/** What a change does to the plan, to be shown before it is saved: the finish, the closings, the errors. */
import type { Closing, OrderError, Plan } from '../contract/plan.ts';
import { dayNumber } from '../time/days.ts';

/** A closing whose day moves, that closes another depth, or that is new or gone. Days are null where it has no date. */
export interface MovedClosing {
  readonly zone: string;
  /** The depth and the covering task after the change; of one that is gone, before it. */
  readonly depth: string;
  readonly by: string;
  readonly from: string | null;
  readonly to: string | null;
  readonly is: 'moved' | 'at another depth' | 'new' | 'gone';
}

export interface Effect {
  /** Instants of the dated finish, before and after; null where there is none. */
  readonly finish: { readonly from: string | null; readonly to: string | null };
  /** Days the finish moves, later positive; null where one of them is unknown. */
  readonly days: number | null;
  /** Soonest first. */
  readonly closings: readonly MovedClosing[];
  readonly newErrors: readonly OrderError[];
  readonly goneErrors: readonly OrderError[];
  /** Does it change whether the dates are provisional? */
  readonly provisional: { readonly from: boolean; readonly to: boolean };
}

export function effectOf(before: Plan, after: Plan): Effect {
  const from = before.finish.dates;
  const to = after.finish.dates;
  return {
    finish: { from, to },
    days: from === null || to === null ? null : dayNumber(to.slice(0, 10)) - dayNumber(from.slice(0, 10)),
    closings: movedClosings(before.closings, after.closings),
    newErrors: without(after.errors, before.errors),
    goneErrors: without(before.errors, after.errors),
    provisional: { from: before.provisional, to: after.provisional },
  };
}

/** Does it change nothing a builder would notice? */
export function isQuiet({ days, finish, closings, newErrors, goneErrors, provisional }: Effect): boolean {
  const still = days === 0 || (finish.from === null && finish.to === null);
  return (
    still &&
    closings.length + newErrors.length + goneErrors.length === 0 &&
    provisional.from === provisional.to
  );
}

function movedClosings(before: readonly Closing[], after: readonly Closing[]): MovedClosing[] {
  const old = new Map(before.map((one) => [nameOf(one), one]));
  const now = new Map(after.map((one) => [nameOf(one), one]));
  const moved: MovedClosing[] = [];
  const gone = [...old].filter(([name]) => !now.has(name)).map(([, one]) => one);
  for (const [name, { zone, depth, by, on: to }] of now) {
    const same = old.get(name);
    if (same !== undefined) {
      if (same.on !== to) moved.push({ zone, depth, by, from: same.on, to, is: 'moved' });
      continue;
    }
    // The same task closing another depth of the zone is one closing, not one less and one more.
    const other = gone.findIndex((one) => one.zone === zone && one.by === by);
    const [was] = other === -1 ? [undefined] : gone.splice(other, 1);
    moved.push({
      zone,
      depth,
      by,
      from: was?.on ?? null,
      to,
      is: was === undefined ? 'new' : 'at another depth',
    });
  }
  for (const { zone, depth, by, on } of gone) moved.push({ zone, depth, by, from: on, to: null, is: 'gone' });
  const day = ({ from, to }: MovedClosing) => to ?? from ?? '9999';
  return moved.toSorted((a, b) => (day(a) < day(b) ? -1 : day(a) > day(b) ? 1 : a.zone < b.zone ? -1 : 1));
}

function nameOf({ zone, depth, by }: Closing): string {
  return `${zone}/${depth}/${by}`;
}

/** Errors are the same when they say the same. */
function without(errors: readonly OrderError[], known: readonly OrderError[]): OrderError[] {
  const said = new Set(known.map(({ sentence }) => sentence));
  return errors.filter(({ sentence }) => !said.has(sentence));
}
