/**
 * What keeps still: tasks planned within the next 14 days. They are decoded before all others, with what has to come
 * before them, in the order they had; where that alone would move one, what stood before it in the list comes along, so
 * that in the end each has exactly the place it had.
 */
import { DAY } from '../../time/clock.ts';
import { floorOf, type Draft } from '../../schedule/draft.ts';
import { UNPLACED } from '../../schedule/forward.ts';
import { Generator } from '../../schedule/levelling/generate.ts';
import { NOT_BEGUN, targetOf } from '../../schedule/network.ts';
import { Judge } from './judge.ts';

export const STILL_DAYS = 14;

/** Task nodes not begun that the draft starts within the next days, by number. */
export function nearTasks({ basis, levelled, net }: Draft): number[] {
  const until = basis.asOf + STILL_DAYS * DAY;
  return Array.from({ length: net.taskCount }, (_, v) => v).filter(
    (v) => net.begun[v] === NOT_BEGUN && levelled.start[v]! < Math.min(until, UNPLACED),
  );
}

/** Task nodes to decode first, in order; with the rest of the list behind them, all near tasks stay. */
export function heldFirst(draft: Draft, near: readonly number[]): number[] {
  if (near.length === 0) return [];
  const { basis, net, graph, list } = draft;
  const judge = new Judge(draft, near);
  const generator = new Generator(basis, net, graph.ids);
  const place = new Int32Array(net.taskCount);
  list.forEach((v, i) => (place[v] = i));
  const held = new Set(near);
  for (;;) {
    addPredecessors(draft, held);
    const first = list.filter((v) => held.has(v));
    const trial = [...first, ...list.filter((v) => !held.has(v))];
    const moved = judge.movedIn(generator.generate(trial, { floor: floorOf(basis), explain: false }));
    const before = moved.flatMap((v) => list.slice(0, place[v]).filter((u) => !held.has(u)));
    if (before.length === 0) return first;
    for (const u of before) held.add(u);
  }
}

function addPredecessors({ net }: Draft, held: Set<number>): void {
  const before: number[][] = Array.from({ length: net.size }, () => []);
  for (let v = 0; v < net.size; v++)
    for (let arc = net.offsets[v]!; arc < net.offsets[v + 1]!; arc++)
      before[targetOf(net.codes[arc]!)]!.push(v);
  const seen = new Set<number>(held);
  for (const w of seen)
    for (const v of before[w]!) {
      seen.add(v);
      if (v < net.taskCount) held.add(v);
    }
}
