/**
 * The course of a trial: the plan's network and its turns as one list of arcs in typed arrays, walked in one order. With
 * the plan's own minutes a trial along it gives the plan's own dates.
 */
import type { Draft } from '../schedule/draft.ts';
import { floorOf } from '../schedule/draft.ts';
import {
  FF,
  isLagged,
  isWorking,
  kindOf,
  NOT_BEGUN,
  SF,
  SS,
  targetOf,
  CLOCK,
  type Network,
} from '../schedule/network.ts';
import { after, NEVER_AGAIN, type WorkingSet } from '../time/working-set.ts';
import { turnsOf } from './turns.ts';

/** What an arc hands on of the task it leaves. */
export const FROM_START = 0;
export const FROM_FINISH = 1;
export const FROM_READY = 2;

/** What the start of a task waited for, by the arc or bound that held it. */
export const BY_LINK = 0;
export const BY_PEOPLE = 1;
export const BY_ROOM = 2;
export const BY_PART = 3;
export const BY_DATE = 4;

/** Arcs, in the order of the nodes they lead into. */
export interface Arcs {
  readonly source: Int32Array;
  readonly target: Int32Array;
  /** FROM_START, FROM_FINISH or FROM_READY. */
  readonly from: Uint8Array;
  /** 1: bounds the finish of its target, else the start. */
  readonly onFinish: Uint8Array;
  readonly lag: Int32Array;
  /** The set a lag runs in; CLOCK: day and night. */
  readonly lagSet: Int32Array;
  readonly by: Uint8Array;
}

/** A pair that must not be in one place at one time; see `Turns`. */
export interface Clear {
  readonly other: number;
  /** Rooms are held from start to end, people only while they work. */
  readonly room: boolean;
}

export interface Course {
  readonly net: Network;
  readonly sets: readonly WorkingSet[];
  readonly order: Int32Array;
  readonly arcs: Arcs;
  /** Per node: its arcs in `arcs` are [into[v], into[v + 1]). */
  readonly into: Int32Array;
  /** The arcs that leave node v: out[i] for i in [outOf[v], outOf[v + 1]). */
  readonly outOf: Int32Array;
  readonly out: Int32Array;
  /** Per node: not before these, whatever the trial. Parts are not in it. */
  readonly lower: Int32Array;
  readonly lowerFinish: Int32Array;
  /** Per node: the working set of its team; CLOCK for what has no minutes. */
  readonly set: Int32Array;
  /** Per node: the shortest sitting the task asks for, no longer than its team's longest. */
  readonly sitting: Int32Array;
  /** Per node: its wait shuts its rooms. */
  readonly holdsRooms: Uint8Array;
  /** Per node: those walked before it that it keeps clear of, and those walked after it; mostly neither. */
  readonly clearOfEarlier: readonly (readonly Clear[] | null)[];
  readonly clearOfLater: readonly (readonly Clear[] | null)[];
  /** Nothing ends before this. */
  readonly floor: number;
}

/** @param draft a plan with a finish: every node has dates */
export function courseOf(draft: Draft): Course {
  const { basis, graph, net, levelled, lowerWithoutParts } = draft;
  const { sets } = basis.calendar;
  const { order, turns, clear, shutUntil } = turnsOf(draft);
  const lower = lowerWithoutParts.slice();
  const lowerFinish = net.lowerFinish.slice();
  const set = new Int32Array(net.size).fill(CLOCK);
  const sitting = new Int32Array(net.size);
  const holdsRooms = new Uint8Array(net.size);
  for (let v = 0; v < net.taskCount; v++) {
    const task = basis.taskOf.get(graph.ids[v]!)!;
    holdsRooms[v] = task.waitHoldsZones ? 1 : 0;
    lower[v] = Math.max(lower[v]!, shutUntil[v]!);
    if (net.minutes[v] === 0) continue;
    set[v] = levelled.spots[v]!.team.set;
    // A task that grows must still begin some evening: nobody has longer ones than these.
    sitting[v] = Math.min(task.shortestSitting, sets[set[v]!]!.longestSitting);
  }

  const list: ArcRecord[] = [];
  for (let v = 0; v < net.size; v++)
    for (let arc = net.offsets[v]!; arc < net.offsets[v + 1]!; arc++) {
      const record = networkArc(net, v, arc);
      if (net.begun[v] === NOT_BEGUN || record.from !== FROM_START) list.push(record);
      // What hangs on the start of a task under way hangs on a day that has been.
      else holdBack(record, net.begun[v]!, sets, record.onFinish ? lowerFinish : lower);
    }
  const seen = new Set<string>();
  for (const { from, to, by } of turns) {
    // Two zones in which one follows the other, or two people who do.
    if (seen.has(`${from} ${to} ${by}`)) continue;
    seen.add(`${from} ${to} ${by}`);
    list.push({
      source: from,
      target: to,
      from: by === 'room' && holdsRooms[from] === 1 ? FROM_READY : FROM_FINISH,
      onFinish: false,
      lag: 0,
      lagSet: CLOCK,
      by: by === 'room' ? BY_ROOM : BY_PEOPLE,
    });
  }
  list.sort(inOrder);

  const { into, outOf, out } = indexes(list, net.size);
  return {
    net,
    sets,
    order,
    arcs: {
      source: Int32Array.from(list, (arc) => arc.source),
      target: Int32Array.from(list, (arc) => arc.target),
      from: Uint8Array.from(list, (arc) => arc.from),
      onFinish: Uint8Array.from(list, (arc) => (arc.onFinish ? 1 : 0)),
      lag: Int32Array.from(list, (arc) => arc.lag),
      lagSet: Int32Array.from(list, (arc) => arc.lagSet),
      by: Uint8Array.from(list, (arc) => arc.by),
    },
    into,
    outOf,
    out,
    lower,
    lowerFinish,
    set,
    sitting,
    holdsRooms,
    clearOfEarlier: clearOf(net.size, clear, 'to', 'from'),
    clearOfLater: clearOf(net.size, clear, 'from', 'to'),
    floor: floorOf(basis) ?? -NEVER_AGAIN,
  };
}

interface ArcRecord {
  readonly source: number;
  readonly target: number;
  readonly from: number;
  readonly onFinish: boolean;
  readonly lag: number;
  readonly lagSet: number;
  readonly by: number;
}

/** By the node they lead into. */
function inOrder(a: ArcRecord, b: ArcRecord): number {
  return a.target - b.target || a.source - b.source || a.by - b.by;
}

function networkArc(net: Network, source: number, arc: number): ArcRecord {
  const code = net.codes[arc]!;
  const target = targetOf(code);
  const kind = kindOf(code);
  return {
    source,
    target,
    from: kind === SS || kind === SF ? FROM_START : kind === FF ? FROM_FINISH : FROM_READY,
    onFinish: kind === FF || kind === SF,
    lag: isLagged(code) ? net.lags[arc]! : 0,
    lagSet: isWorking(code) ? net.set[target]! : CLOCK,
    by: BY_LINK,
  };
}

function holdBack(
  { target, lag, lagSet }: ArcRecord,
  begun: number,
  sets: readonly WorkingSet[],
  lower: Int32Array,
): void {
  const bound = lagSet === CLOCK ? begun + lag : after(sets[lagSet]!, begun, lag);
  lower[target] = Math.max(lower[target]!, bound);
}

function indexes(list: readonly ArcRecord[], size: number) {
  const into = new Int32Array(size + 1);
  const outOf = new Int32Array(size + 1);
  for (const { source, target } of list) {
    into[target + 1]!++;
    outOf[source + 1]!++;
  }
  for (let v = 0; v < size; v++) {
    into[v + 1]! += into[v]!;
    outOf[v + 1]! += outOf[v]!;
  }
  const out = new Int32Array(list.length);
  const next = outOf.slice();
  list.forEach(({ source }, arc) => (out[next[source]!++] = arc));
  return { into, outOf, out };
}

function clearOf(
  size: number,
  pairs: readonly { readonly from: number; readonly to: number; readonly by: 'people' | 'room' }[],
  own: 'from' | 'to',
  other: 'from' | 'to',
): (Clear[] | null)[] {
  const lists: (Clear[] | null)[] = Array.from({ length: size }, () => null);
  for (const pair of pairs) (lists[pair[own]] ??= []).push({ other: pair[other], room: pair.by === 'room' });
  return lists;
}
