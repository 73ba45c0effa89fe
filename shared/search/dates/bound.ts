/**
 * A finish that no order of tasks can beat. Two proofs: the critical path, and work against the hours that those who may
 * do it have, under the conditions it needs, from the earliest any of it can begin (the energy of a resource: R. Klein,
 * A. Scholl, "Computing lower bounds by destructive improvement", EJOR 112, 1999, here with calendars).
 */
import { workedBefore, type WorkingSet } from '../../time/working-set.ts';
import { eligibleFor } from '../../schedule/basis.ts';
import { floorOf, type Draft } from '../../schedule/draft.ts';
import { UNPLACED } from '../../schedule/forward.ts';
import { FF, kindOf, SF } from '../../schedule/network.ts';
import { DAYS_LATE, FINISH_DAY, type Judge } from './judge.ts';

/** The first goals of an objective, up to the day of the finish: what comes after is not bounded. */
export function finishBound(draft: Draft, judge: Judge): Float64Array {
  const objective = new Float64Array(judge.goals);
  judge.setFinish(Math.max(floorOf(draft.basis) ?? 0, pathBound(draft), energyBound(draft)), objective);
  return objective.slice(0, Math.max(DAYS_LATE, FINISH_DAY) + 1);
}

/** 0 where links bind finishes: a slower team may then begin earlier and still end later than the bound. */
function pathBound({ net, path }: Draft): number {
  if (net.codes.some((code) => kindOf(code) === FF || kindOf(code) === SF)) return 0;
  let end = 0;
  for (let v = 0; v < net.taskCount; v++)
    if (path.early.ready[v]! < UNPLACED && path.early.ready[v]! > end) end = path.early.ready[v]!;
  return end;
}

interface Piece {
  readonly head: number;
  readonly personMinutes: number;
  readonly who: readonly string[];
  readonly conditions: readonly string[];
}

/** O(kinds of work · tasks): work of one kind asks for the same people under the same conditions. */
function energyBound({ basis, graph, net, path }: Draft): number {
  const pieces: Piece[] = [];
  for (let v = 0; v < net.taskCount; v++) {
    const task = basis.taskOf.get(graph.ids[v]!)!;
    const head = path.early.start[v]!;
    if (net.minutes[v] === 0 || head >= UNPLACED) continue;
    pieces.push({
      head,
      personMinutes: net.minutes[v]! * task.people,
      who: eligibleFor(basis, task),
      conditions: task.conditions.toSorted(),
    });
  }
  const kinds = new Map(pieces.map((piece) => [`${piece.who.join()}|${piece.conditions.join()}`, piece]));
  let best = 0;
  for (const { who, conditions } of kinds.values()) {
    const among = pieces.filter(
      (piece) => isWithin(piece.who, who) && isWithin(conditions, piece.conditions),
    );
    const sets = who.map((person) => basis.calendar.sets[basis.calendar.setOf(1, [person], conditions, [])]!);
    const head = among.reduce((least, piece) => Math.min(least, piece.head), UNPLACED);
    const work = among.reduce((sum, { personMinutes }) => sum + personMinutes, 0);
    best = Math.max(best, workedBy(sets, head, work));
  }
  return best;
}

function isWithin(some: readonly string[], all: readonly string[]): boolean {
  return some.every((one) => all.includes(one));
}

/** The first instant by which all of them together have had so many minutes; 0 where the calendar ends before. */
function workedBy(sets: readonly WorkingSet[], from: number, minutes: number): number {
  const had = (instant: number) =>
    sets.reduce((sum, set) => sum + workedBefore(set, instant) - workedBefore(set, from), 0);
  let low = from;
  let high = sets.reduce((last, { to }) => Math.max(last, to), from);
  if (had(high) < minutes) return 0;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (had(middle) < minutes) low = middle + 1;
    else high = middle;
  }
  return low;
}
