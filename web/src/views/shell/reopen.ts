/** What reaching a depth again would cost later, once the last cover planned over it stands; by depth, from the inside out. */
import type { Plan } from '#shared/contract/plan.ts';
import type { Task } from '#shared/contract/task.ts';
import { reopeningOf } from '#shared/covers/reopening.ts';
import type { Stack } from '#shared/covers/stacks.ts';

export interface ReopenLater {
  /** The cover that stands by then. */
  readonly stands: Task;
  readonly personMinutes: number;
  readonly parts: readonly { readonly depth: string; readonly personMinutes: number }[];
}

/** @returns null where nothing will cover the depth */
export function reopenLater(stack: Stack, depth: string, plan: Plan): ReopenLater | null {
  const position = stack.depths.indexOf(depth);
  const covers = stack.entries.filter(({ hides }) => hides >= position);
  if (position < 0 || covers.length === 0) return null;
  const endOf = (task: Task) => task.finishedAt ?? plan.tasks[task.key]?.dates?.finish ?? null;
  const last = covers.reduce((latest, one) =>
    (endOf(one.task) ?? '~') > (endOf(latest.task) ?? '~') ? one : latest,
  );
  const end = endOf(last.task);
  // Without a date of the last cover only the covers themselves are sure to stand.
  const { personMinutes, parts } = reopeningOf(stack, position, (task, hidesIt) =>
    end === null ? hidesIt : (endOf(task) ?? '~') <= end,
  );
  const front = new Map(stack.entries.map((entry) => [entry.task.key, entry.front]));
  const byDepth = new Map<number, number>();
  for (const part of parts) {
    const at = front.get(part.task)!;
    byDepth.set(at, (byDepth.get(at) ?? 0) + part.personMinutes);
  }
  return {
    stands: last.task,
    personMinutes,
    parts: [...byDepth]
      .sort(([a], [b]) => a - b)
      .filter(([, minutes]) => minutes > 0)
      .map(([at, minutes]) => ({ depth: stack.depths[at]!, personMinutes: minutes })),
  };
}

export interface Stretch {
  readonly names: readonly string[];
  readonly personMinutes: number;
}

/** Neighbours too short to carry their words in a dimension chain stand as one. @param least share of the whole */
export function joined(
  parts: readonly { readonly depth: string; readonly personMinutes: number }[],
  least: number,
): Stretch[] {
  const whole = parts.reduce((sum, { personMinutes }) => sum + personMinutes, 0);
  const out: Stretch[] = parts.map(({ depth, personMinutes }) => ({ names: [depth], personMinutes }));
  while (out.length > 1) {
    const short = out.findIndex(({ personMinutes }) => personMinutes < least * whole);
    if (short < 0) break;
    const [before, after] = [out[short - 1], out[short + 1]];
    const with_ =
      before === undefined
        ? short
        : after === undefined || before.personMinutes <= after.personMinutes
          ? short - 1
          : short;
    const [a, b] = [out[with_]!, out[with_ + 1]!];
    out.splice(with_, 2, {
      names: [...a.names, ...b.names],
      personMinutes: a.personMinutes + b.personMinutes,
    });
  }
  return out;
}
