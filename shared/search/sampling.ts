/**
 * Random lists that keep every arc and lean towards what is urgent: among the activities whose predecessors are all in
 * the list, each is drawn with a chance that grows with its regret, by how much the least urgent of them is less so
 * (regret-based biased random sampling, A. Drexl, Management Science 37:12, 1991; late finish as priority, R. Kolisch,
 * "Efficient priority rules for the resource-constrained project scheduling problem", J. Operations Management 14, 1996).
 */
import { incomingCounts } from './arcs.ts';
import type { Decoder } from './decoder.ts';
import type { Random } from './random.ts';

/** Regret counts by this power: 0 would be chance alone. */
const BIAS = 0.7;
const FINE = 1 << 24;

/** Fills a list. O(activities · activities that can be chosen at once). */
export type Sample = (list: Int32Array) => void;

export function samplerOf({ size, order, urgency }: Decoder, random: Random): Sample {
  const { offsets, targets } = order;
  const before = incomingCounts(size, targets);
  const waitingFor = new Int32Array(size);
  const open = new Int32Array(size);
  const reach = new Float64Array(size);
  return (list) => {
    waitingFor.set(before);
    let count = 0;
    for (let v = 0; v < size; v++) if (waitingFor[v] === 0) open[count++] = v;
    for (let place = 0; place < size; place++) {
      const chosen = draw(count);
      const v = open[chosen]!;
      open[chosen] = open[--count]!;
      list[place] = v;
      for (let arc = offsets[v]!; arc < offsets[v + 1]!; arc++) {
        const w = targets[arc]!;
        waitingFor[w]!--;
        if (waitingFor[w] === 0) open[count++] = w;
      }
    }
  };

  /** A place among the open ones. */
  function draw(count: number): number {
    if (count === 1) return 0;
    let last = -Infinity;
    for (let i = 0; i < count; i++) last = Math.max(last, urgency[open[i]!]!);
    let sum = 0;
    for (let i = 0; i < count; i++) {
      sum += (last - urgency[open[i]!]! + 1) ** BIAS;
      reach[i] = sum;
    }
    const drawn = (random(FINE) / FINE) * sum;
    let i = 0;
    while (i < count - 1 && reach[i]! <= drawn) i++;
    return i;
  }
}

/** The list by urgency alone, ties by number: a start when nothing better is known. */
export function urgentFirst({ size, order, urgency }: Decoder): Int32Array {
  const waitingFor = incomingCounts(size, order.targets);
  const open = Array.from({ length: size }, (_, v) => v).filter((v) => waitingFor[v] === 0);
  const list = new Int32Array(size);
  for (let place = 0; place < size; place++) {
    const v = open.reduce((a, b) =>
      urgency[b]! < urgency[a]! || (urgency[b] === urgency[a] && b < a) ? b : a,
    );
    open.splice(open.indexOf(v), 1);
    list[place] = v;
    for (let arc = order.offsets[v]!; arc < order.offsets[v + 1]!; arc++) {
      const w = order.targets[arc]!;
      waitingFor[w]!--;
      if (waitingFor[w] === 0) open.push(w);
    }
  }
  return list;
}
