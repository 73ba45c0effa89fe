/**
 * An error's chain as it is drawn: tasks in the order they have to go, and what runs against that order. A circle is
 * opened at the link that is wrong; a task closed up by several covers fans out to them.
 */
import type { ChainStep, OrderError } from '#shared/contract/plan.ts';

export interface Shape {
  /** `line`: step i leads from task i to task i + 1. `fan`: step i leads from the first task to task i + 1. */
  readonly kind: 'line' | 'fan';
  readonly tasks: readonly string[];
  readonly steps: readonly ChainStep[];
  /** The step that leads from the last task back to the first; null where the deed itself runs against the order. */
  readonly back: ChainStep | null;
}

export function shapeOf({ rule, chain, tasks }: OrderError): Shape {
  const [first] = chain;
  if (first === undefined) return { kind: 'line', tasks: tasks.slice(0, 1), steps: [], back: null };
  if (chain.at(-1)!.to !== first.from) {
    const fan = chain.every(({ from }) => from === first.from);
    return {
      kind: fan ? 'fan' : 'line',
      tasks: [first.from, ...chain.map(({ to }) => to)],
      steps: chain,
      back: null,
    };
  }
  // The link that is to go comes first in the chain; among covers none is more wrong than another.
  const [back, steps] =
    rule === 'covers-in-a-circle' ? [chain.at(-1)!, chain.slice(0, -1)] : [first, chain.slice(1)];
  return { kind: 'line', tasks: [back.to, ...steps.map(({ to }) => to)], steps, back };
}
