/**
 * The network the passes run on: compact typed arrays only. Nodes are tasks, then gates of no length. A node has its
 * minutes and the working set they run in, bounds from outside, and a wait; an arc has its kind and lag.
 */
import type { LinkKind } from '../contract/task.ts';
import type { Digraph } from '../graph/compile.ts';
import { NEVER_AGAIN, NEVER_BEFORE } from '../time/working-set.ts';

/** No bound from below, none from above. */
export const NO_LOWER = NEVER_BEFORE;
export const NO_UPPER = NEVER_AGAIN;
/** Not begun yet. */
export const NOT_BEGUN = NEVER_BEFORE;
/** Works on the clock, day and night. */
export const CLOCK = -1;

export const KIND_CODE: Record<LinkKind, number> = { FS: 0, SS: 1, FF: 2, SF: 3 };
export const SS = 1;
export const FF = 2;
export const SF = 3;
const LAGGED = 4;
const WORKING = 8;

export interface Network {
  readonly size: number;
  /** Nodes below this are tasks. */
  readonly taskCount: number;
  readonly offsets: Int32Array;
  /** Per arc: target × 16 + flags + kind, so that a sweep reads one number per plain arc. */
  readonly codes: Int32Array;
  /** Per arc: lag in minutes. */
  readonly lags: Int32Array;
  /** Per node: arcs that lead into it. */
  readonly waitingFor: Int32Array;
  /** Per node: minutes still to work, and the number of the working set they run in (CLOCK: any minute). */
  readonly minutes: Int32Array;
  readonly set: Int32Array;
  /** Worked minutes a sitting must have left at the start. */
  readonly sitting: Int32Array;
  readonly lower: Int32Array;
  readonly lowerFinish: Int32Array;
  readonly upper: Int32Array;
  /** Minutes of wait after the finish, and the set they run in (CLOCK: day and night). */
  readonly wait: Int32Array;
  readonly waitSet: Int32Array;
  /** The wait is over no earlier than this. */
  readonly readyFrom: Int32Array;
  /** When a started task began; what hangs on its start hangs on that. */
  readonly begun: Int32Array;
  /** 1 where there is a wait, a bound from above or a beginning to look at; most nodes have none. See `markUneven`. */
  readonly uneven: Uint8Array;
}

/** @param lag minutes ≥ 0. @param working counts the worked minutes of the target's set */
export function arcCode(target: number, kind: number, lag: number, working: boolean): number {
  return (target << 4) | (lag > 0 ? LAGGED | (working ? WORKING : 0) : 0) | kind;
}

export function targetOf(code: number): number {
  return code >> 4;
}

export function kindOf(code: number): number {
  return code & 3;
}

/** From finish to start, without a lag. */
export function isPlain(code: number): boolean {
  return (code & 15) === 0;
}

export function isLagged(code: number): boolean {
  return (code & LAGGED) !== 0;
}

export function isWorking(code: number): boolean {
  return (code & WORKING) !== 0;
}

/** Empty arrays for that many nodes and the arcs of `graph`; nothing bounds anything yet. */
export function bareNetwork(graph: Digraph, taskCount: number): Network {
  const { size, offsets, targets } = graph;
  const waitingFor = new Int32Array(size);
  for (const target of targets) waitingFor[target]!++;
  const array = (value = 0) => new Int32Array(size).fill(value);
  return {
    size,
    taskCount,
    offsets,
    codes: Int32Array.from(targets, (target) => arcCode(target, 0, 0, false)),
    lags: new Int32Array(targets.length),
    waitingFor,
    minutes: array(),
    set: array(CLOCK),
    sitting: array(),
    lower: array(NO_LOWER),
    lowerFinish: array(NO_LOWER),
    upper: array(NO_UPPER),
    wait: array(),
    waitSet: array(CLOCK),
    readyFrom: array(NO_LOWER),
    begun: array(NOT_BEGUN),
    uneven: new Uint8Array(size),
  };
}

/** To be called once the waits, upper bounds and beginnings of a network are set: the passes look at those it marks. */
export function markUneven({ size, wait, readyFrom, upper, begun, uneven }: Network): void {
  for (let v = 0; v < size; v++)
    uneven[v] =
      wait[v] === 0 && readyFrom[v] === NO_LOWER && upper[v] === NO_UPPER && begun[v] === NOT_BEGUN ? 0 : 1;
}
