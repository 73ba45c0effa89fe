/** A row of the plan's health from what was found: it passes up to its threshold and says what lies beyond it. */
import type {
  HealthCheck,
  HealthGroup,
  HealthRecord,
  HealthRow,
  HealthSource,
  HealthState,
} from '../contract/plan-health.ts';
import type { Task } from '../contract/task.ts';

/** A share of all that may be found, or how many. */
export type Most = { readonly share: number } | { readonly count: number };

export const NONE: Most = { count: 0 };
/** DCMA-EA PAM 200.1 asks for at most 5 % in most of its checks (from memory). */
export const FEW: Most = { share: 0.05 };

export interface Found {
  readonly check: HealthCheck;
  readonly group: HealthGroup;
  readonly name: string;
  readonly of: number;
  readonly records: readonly HealthRecord[];
  readonly most: Most;
  readonly beyond: Exclude<HealthState, 'passed'>;
  readonly sources: readonly HealthSource[];
  /** The sentence when nothing was found, and when something was. */
  readonly none: string;
  readonly some: string;
}

/** One record counts one. */
export function rowOf({ records, of, most, beyond, none, some, sources, ...row }: Found): HealthRow {
  const count = records.length;
  const allowed = 'share' in most ? most.share * of : most.count;
  return {
    ...row,
    state: count > allowed ? beyond : 'passed',
    count,
    of,
    most: { count: 'count' in most ? most.count : null, share: 'share' in most ? most.share : null },
    sources: [...sources],
    sentence: count === 0 ? none : some,
    records: [...records],
  };
}

export function taskRecord({ key, name }: Pick<Task, 'key' | 'name'>, note: string): HealthRecord {
  return { noun: 'tasks', id: key, name, note };
}

/** "1 task", "3 tasks" */
export function counted(n: number, one: string, many = `${one}s`): string {
  return `${n} ${n === 1 ? one : many}`;
}

/** A check of slack, where there is none to speak of: nothing is known, so nothing passes. */
export function knownOnly(row: HealthRow, finish: number | null): HealthRow {
  return finish !== null || row.of === 0
    ? row
    : { ...row, state: 'look', sentence: 'The finish has no date, so this cannot be said.' };
}
