/**
 * The turns of a plan: in which order people, tools and rooms serve its tasks, as arcs beside those of the network, and
 * one order in which a trial can walk all of them. Two tasks that share someone are in a fixed order if one has ended
 * when the other begins. If not (worked on by turns), or if the turns and the links to a finish run in a circle, they keep
 * clear of each other instead: the one walked later takes the first place the other leaves it.
 */
import type { Draft } from '../schedule/draft.ts';
import { RankQueue } from '../schedule/levelling/rank-queue.ts';
import { serviceOf, type Line } from '../schedule/levelling/service.ts';
import { kindOf, NOT_BEGUN, SF, SS, targetOf, type Network } from '../schedule/network.ts';

/** `to` begins once `from` has ended, or has left its rooms; or keeps clear of it. */
export interface Turn {
  readonly from: number;
  readonly to: number;
  readonly by: 'people' | 'room';
}

export interface Turns {
  /** Every node, each after all it waits for. */
  readonly order: Int32Array;
  readonly turns: readonly Turn[];
  /** Pairs in no fixed order; `from` is walked first. */
  readonly clear: readonly Turn[];
  /** Per task node: until when the wait of a finished task shuts its room. */
  readonly shutUntil: Int32Array;
}

/** Whom or what some tasks share. */
interface Shared {
  /** By start. */
  readonly tasks: readonly number[];
  readonly by: Turn['by'];
  /** Per node: from start until then it is taken. */
  readonly until: Int32Array;
}

/** @param draft a plan with a finish: every node has dates */
export function turnsOf({ basis, graph, net, levelled, path }: Draft): Turns {
  const { lines, places, shutUntil } = serviceOf(basis, graph.ids, levelled);
  const people = new Set<Line>(lines.flatMap((at) => at.map(({ line }) => line)));
  const leave = Int32Array.from(levelled.spots, (_, v) =>
    basis.taskOf.get(graph.ids[v]!)!.waitHoldsZones ? levelled.ready[v]! : levelled.finish[v]!,
  );
  const shared: Shared[] = [
    ...[...people].map(({ tasks }): Shared => ({ tasks, by: 'people', until: levelled.finish })),
    ...places.map(({ tasks }): Shared => ({ tasks, by: 'room', until: leave })),
  ];
  const found = shared.map((one) => turnsAt(one, levelled.start));
  const placeEarly = placesIn(path.early.order, net.size);
  const byStart = Array.from({ length: net.size }, (_, v) => v).sort(
    (a, b) => levelled.start[a]! - levelled.start[b]! || placeEarly[a]! - placeEarly[b]! || a - b,
  );
  const order = walk(
    net,
    byStart,
    found.flatMap(({ turns }) => turns),
  );
  const place = placesIn(order, net.size);
  const isKept = ({ from, to }: Turn) => place[from]! < place[to]!;
  const settled = shared.map((one, i) =>
    found[i]!.turns.every(isKept) ? found[i]! : turnsAlong(one, levelled.start, place),
  );
  return {
    order,
    turns: settled.flatMap(({ turns }) => turns),
    clear: settled.flatMap(({ clear }) =>
      clear.map((pair) => (isKept(pair) ? pair : { ...pair, from: pair.to, to: pair.from })),
    ),
    shutUntil,
  };
}

/**
 * Each task after those its person, tool or place is done with when it begins. Only the last of them need an arc: those
 * that end after every other of them has begun. Seldom more than two are open at once.
 */
function turnsAt({ tasks, by, until }: Shared, start: Int32Array): Pick<Turns, 'turns' | 'clear'> {
  const turns: Turn[] = [];
  const clear: Turn[] = [];
  let open: number[] = [];
  for (const to of tasks) {
    const done = open.filter((u) => until[u]! <= start[to]!);
    const going = open.filter((u) => until[u]! > start[to]!);
    const lastBegun = done.reduce((last, u) => Math.max(last, start[u]!), -Infinity);
    const needed = done.filter((u) => until[u]! > lastBegun);
    for (const from of needed) turns.push({ from, to, by });
    for (const from of going) clear.push({ from, to, by });
    open = [...going, ...needed, to];
  }
  return { turns, clear };
}

/**
 * The same along another order, where one task stands for those before it only if it is walked after them too. Every
 * pair is looked at: this is for the few lines that a circle goes through.
 */
function turnsAlong(
  { tasks, by, until }: Shared,
  start: Int32Array,
  place: Int32Array,
): Pick<Turns, 'turns' | 'clear'> {
  const turns: Turn[] = [];
  const clear: Turn[] = [];
  const walked = tasks.toSorted((a, b) => place[a]! - place[b]!);
  walked.forEach((to, i) => {
    // From the last one walked back: the latest start among those already known to come before it.
    let lastBegun = -Infinity;
    for (let j = i - 1; j >= 0; j--) {
      const from = walked[j]!;
      if (until[from]! > start[to]!) clear.push({ from, to, by });
      else if (until[from]! > lastBegun) {
        turns.push({ from, to, by });
        lastBegun = Math.max(lastBegun, start[from]!);
      }
    }
  });
  return { turns, clear };
}

function placesIn(order: ArrayLike<number>, size: number): Int32Array {
  const place = new Int32Array(size);
  for (let i = 0; i < order.length; i++) place[order[i]!] = i;
  return place;
}

/** By the plan's starts, as far as the links allow; the turns give way where there is a circle. */
function walk(net: Network, byStart: readonly number[], turns: readonly Turn[]): Int32Array {
  const links = new Int32Array(net.size);
  const waits = new Int32Array(net.size);
  const after: number[][] = Array.from({ length: net.size }, () => []);
  for (let v = 0; v < net.size; v++) for (const w of boundBy(net, v)) links[w]!++;
  for (const { from, to } of turns) {
    waits[to]!++;
    after[from]!.push(to);
  }
  const queue = new RankQueue(placesIn(byStart, net.size));
  const isWalked = new Uint8Array(net.size);
  const order = new Int32Array(net.size);
  const push = (v: number) => {
    if (links[v] === 0 && waits[v] === 0 && isWalked[v] === 0) queue.push(v);
  };
  byStart.forEach(push);
  for (let i = 0; i < net.size; i++) {
    let v = queue.pop();
    if (v === -1) v = byStart.find((u) => isWalked[u] === 0 && links[u] === 0)!;
    isWalked[v] = 1;
    order[i] = v;
    for (const w of boundBy(net, v)) {
      links[w]!--;
      push(w);
    }
    for (const w of after[v]!) {
      waits[w]!--;
      push(w);
    }
  }
  return order;
}

/** The nodes whose dates hang on those of `v`. What hangs on the start of a task under way hangs on a day that has been. */
function boundBy(net: Network, v: number): number[] {
  const targets: number[] = [];
  for (let arc = net.offsets[v]!; arc < net.offsets[v + 1]!; arc++) {
    const kind = kindOf(net.codes[arc]!);
    if (net.begun[v] !== NOT_BEGUN && (kind === SS || kind === SF)) continue;
    targets.push(targetOf(net.codes[arc]!));
  }
  return targets;
}
