/** What a builder may try in the demo, by a few numbers: each change fits the build it is made in, or is none. */
import fc from 'fast-check';
import { editsBetween } from '#shared/changes/diff.ts';
import { withRows } from '#shared/changes/apply.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { idOf } from '#shared/contract/nouns.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import { helperForMonth, oneMoreEvening, orderNow, swapInOrder } from '#shared/levers/changes.ts';
import { leaveOut, optionsOf } from '#shared/levers/leave-out.ts';
import { rowIn } from '#shared/whatif/lay.ts';
import type { WhatIfStep } from '#shared/whatif/what-if.ts';

type Edits = readonly Omit<WhatIfStep['edits'][number], 'before'>[];

export interface Move {
  readonly kind: (typeof KINDS)[number];
  readonly a: number;
  readonly b: number;
}

const KINDS = [
  'hours',
  'rename',
  'drop-link',
  'helper',
  'evening',
  'leave-out',
  'order',
  'swap',
  'sort-phases',
  'new-phase',
  'drop-phase',
  'budget',
] as const;

export const move: fc.Arbitrary<Move> = fc.record({
  kind: fc.constantFrom(...KINDS),
  a: fc.nat(10_000),
  b: fc.nat(10_000),
});

/** The step it makes in that build; null where there is nothing to change or it would not hold together. */
export function stepOf(file: BuildFile, made: Move): WhatIfStep | null {
  const edits = editsOf(file, made);
  if (edits.length === 0 || referenceFaults(withRows(file, laid(edits))).length > 0) return null;
  return {
    label: made.kind,
    edits: edits.map((edit) => ({ ...edit, before: rowIn(file, edit.noun, edit.id) })),
  };
}

/** The same as rows to lay over a build. */
export function laid(edits: Edits) {
  return edits.map(({ noun, id, after, at }) => ({
    noun,
    id,
    value: after,
    ...(at === undefined ? {} : { at }),
  }));
}

function editsOf(file: BuildFile, { kind, a, b }: Move): Edits {
  const of = <T>(list: readonly T[], n: number) => list[n % Math.max(1, list.length)];
  const lead = (after: BuildFile | undefined) =>
    after === undefined
      ? []
      : editsBetween(file, after, { of: () => null }).map(({ noun, id, value, at }) => ({
          noun,
          id,
          after: value,
          ...(at === undefined ? {} : { at }),
        }));
  const task = of(file.tasks, a)!;
  const set = (part: object): Edits => [{ noun: 'tasks', id: task.key, after: { ...task, ...part } }];
  switch (kind) {
    case 'hours':
      return set({ minutes: { low: 60 + (b % 60), likely: 120, high: 180 + (b % 600) } });
    case 'rename':
      return set({ name: `Task ${b}` });
    case 'drop-link': {
      const link = of(file.links, a);
      return link === undefined ? [] : [{ noun: 'links', id: idOf('links', link)!, after: null }];
    }
    case 'helper':
      return lead(helperForMonth(file, `2027-0${4 + (a % 5)}-01`)?.file);
    case 'evening':
      return lead(oneMoreEvening(file)?.file);
    case 'leave-out':
      return lead(leaveOut(file, of(optionsOf(file), a)?.name ?? '')?.file);
    case 'order':
      return lead(orderNow(file, of(file.purchases, a)?.key ?? '', `2027-0${4 + (b % 5)}-11`)?.file);
    case 'swap':
      return lead(
        swapInOrder(
          file,
          file.tasks.map(({ key }) => key),
          task.key,
          of(file.tasks, b)!.key,
        )?.file,
      );
    case 'sort-phases': {
      const phase = of(file.phases, a);
      return phase === undefined
        ? []
        : [{ noun: 'phases', id: phase.key, after: phase, at: b % file.phases.length }];
    }
    case 'new-phase':
      return file.phases.some(({ key }) => key === `p${a}`)
        ? []
        : [{ noun: 'phases', id: `p${a}`, after: { key: `p${a}`, name: `Phase ${a}`, budget: b } }];
    case 'drop-phase':
      return [{ noun: 'phases', id: of(file.phases, a)?.key ?? '', after: null }];
    case 'budget':
      return [{ noun: 'build', id: 'build', after: { ...file.build, order: file.order, budget: b * 100 } }];
  }
}
