/**
 * Why a task starts when it does: the one thing that holds it. Looked at from the start backwards: something had the
 * person, tool or zone until then; else a condition or a long enough sitting came only then; else what came before.
 */
import type { Because } from '../../contract/plan.ts';
import type { Task } from '../../contract/task.ts';
import type { Names } from '../../covers/names.ts';
import type { CompiledGraph } from '../../graph/compile.ts';
import { keyOf, nodeId, type TaskGraph } from '../../graph/task-graph.ts';
import { instantOf } from '../../time/clock.ts';
import { firstStart } from '../../time/working-set.ts';
import { durationWords, instantWords, dayWords, listWords } from '../../time/words.ts';
import { readyOfFinished } from '../build-network.ts';
import { usableFrom, type Basis } from '../basis.ts';
import { arcBound, incomingOf, type Incoming } from '../incoming.ts';
import { FF, kindOf, NO_LOWER, NOT_BEGUN, SF, type Network } from '../network.ts';
import type { Levelled } from './generate.ts';
import type { Spot } from './place.ts';

export class Reasons {
  readonly #basis: Basis;
  readonly #drawn: TaskGraph;
  readonly #graph: CompiledGraph;
  readonly #net: Network;
  readonly #levelled: Levelled;
  readonly #names: Names;
  readonly #incoming: Incoming;

  constructor(
    basis: Basis,
    drawn: TaskGraph,
    graph: CompiledGraph,
    net: Network,
    levelled: Levelled,
    names: Names,
  ) {
    this.#basis = basis;
    this.#drawn = drawn;
    this.#graph = graph;
    this.#net = net;
    this.#levelled = levelled;
    this.#names = names;
    this.#incoming = incomingOf(net);
  }

  /** @returns null for a task without dates */
  of(v: number): Because | null {
    const spot = this.#levelled.spots[v] ?? null;
    if (spot === null) return null;
    return (
      this.#resumed(v, spot) ??
      this.#taken(spot) ??
      this.#notYetPossible(v, spot) ??
      this.#before(v) ??
      this.#nothing()
    );
  }

  #task(v: number): Task {
    return this.#basis.taskOf.get(this.#graph.ids[v]!)!;
  }

  #at(instant: number): string {
    return instantWords(this.#basis.clock, instant);
  }

  /** A started task that goes on at the next moment its people are there. */
  #resumed(v: number, spot: Spot): Because | null {
    if (this.#net.begun[v] === NOT_BEGUN || spot.obstacle !== null) return null;
    if (this.#levelled.lower[v]! > this.#basis.asOf || this.#levelled.lowerFinish[v] !== NO_LOWER)
      return null;
    return {
      kind: 'resumed',
      task: null,
      key: null,
      words: 'It has begun and goes on as soon as its people are there.',
    };
  }

  /** A person, tool or zone was taken until then. */
  #taken({ obstacle }: Spot): Because | null {
    if (obstacle === null) return null;
    const { kind, key, holder, until } = obstacle;
    const task = holder < 0 ? null : this.#graph.ids[holder]!;
    const other = task === null ? 'a finished task that is still hardening' : this.#names.task(task);
    const words = {
      person: `${this.#names.person(key)} is busy with ${other} until ${this.#at(until)}.`,
      tool: `The ${this.#names.tool(key)} is in use for ${other} until ${this.#at(until)}.`,
      zone: `There is no room (${this.#names.zone(key)}): ${other} is there until ${this.#at(until)}.`,
    }[kind];
    return { kind, task, key, words };
  }

  /** Its people are there earlier, but a condition does not hold or the sitting is too short. */
  #notYetPossible(v: number, spot: Spot): Because | null {
    const task = this.#task(v);
    if (spot.pieces.length === 0 || this.#levelled.lowerFinish[v] !== NO_LOWER) return null;
    const { calendar } = this.#basis;
    const people = spot.team.people;
    const least = Math.min(1, this.#net.minutes[v]!);
    const from = this.#levelled.lower[v]!;
    const there = firstStart(
      calendar.sets[calendar.setOf(people.length, people, [], [])]!,
      from,
      least,
      least,
    );
    if (there >= spot.start) return null;
    const holder = this.#before(v);
    const after = holder?.task ?? null;
    for (const key of task.conditions.toSorted()) {
      const set = calendar.sets[calendar.setOf(people.length, people, [key], [])]!;
      if (firstStart(set, from, least, least) <= there) continue;
      return {
        kind: 'condition',
        task: after,
        key,
        words: `It needs: ${this.#names.condition(key)}. That holds from ${this.#at(spot.start)}.`,
      };
    }
    const sitting = durationWords(this.#net.sitting[v]!);
    return {
      kind: 'window',
      task: after,
      key: null,
      words: `It needs a sitting of at least ${sitting}; ${listWords(people.map(this.#names.person))} ${people.length === 1 ? 'has' : 'have'} one from ${this.#at(spot.start)}.`,
    };
  }

  /** What came before: a task, a part, a fixed date. */
  #before(v: number): Because | null {
    const { lower, lowerFinish } = this.#levelled;
    const spot = this.#levelled.spots[v]!;
    const byFinish = lowerFinish[v] !== NO_LOWER && spot.finish >= lowerFinish[v]! && spot.start > lower[v]!;
    const bound = byFinish ? lowerFinish[v]! : lower[v]!;
    if (!byFinish && bound <= this.#basis.asOf) return null;
    return this.#fixed(v, bound) ?? this.#part(v, bound) ?? this.#following(v, bound, byFinish);
  }

  #fixed(v: number, bound: number): Because | null {
    const { fixedStart, fixedWhy } = this.#task(v);
    if (fixedStart === null || instantOf(this.#basis.clock, fixedStart) !== bound) return null;
    return {
      kind: 'fixed-start',
      task: null,
      key: null,
      words: `Its date is fixed${fixedWhy === null ? '' : `: ${fixedWhy}`}.`,
    };
  }

  #part(v: number, bound: number): Because | null {
    const part = (this.#basis.partsOf.get(this.#graph.ids[v]!) ?? []).find(
      (one) => usableFrom(this.#basis, one) === bound,
    );
    if (part === undefined) return null;
    const words = `It waits for a part: ${part.line.name}, in hand on ${dayWords(part.day!)}.`;
    return { kind: 'part', task: null, key: part.purchase.key, words };
  }

  #following(v: number, bound: number, byFinish: boolean): Because | null {
    for (const arc of this.#incoming.arcs[v]!) {
      const u = this.#incoming.sources[arc]!;
      const code = this.#net.codes[arc]!;
      const kind = kindOf(code);
      if ((kind === FF || kind === SF) !== byFinish) continue;
      if (u >= this.#net.taskCount) {
        if (this.#levelled.ready[u] !== bound) continue;
        const hidden = this.#behindGate(u, bound);
        if (hidden !== null) return this.#cover(hidden, bound);
        continue;
      }
      if (arcBound(this.#net, this.#basis.calendar.sets, this.#levelled, u, arc) !== bound) continue;
      const origin = this.#originOf(u, v, kind);
      return origin === 'cover' ? this.#cover(u, bound) : this.#link(u, v, bound, kind);
    }
    return this.#finished(v, bound);
  }

  /** The task, behind however many gates, whose wait ends at that instant; -1 stands for a finished one. */
  #behindGate(gate: number, bound: number): number | null {
    const seen = new Set([gate]);
    const through = [gate];
    for (let i = 0; i < through.length; i++)
      for (const arc of this.#incoming.arcs[through[i]!]!) {
        const u = this.#incoming.sources[arc]!;
        if (this.#levelled.ready[u] !== bound || seen.has(u)) continue;
        if (u < this.#net.taskCount) return u;
        seen.add(u);
        through.push(u);
      }
    return null;
  }

  #originOf(u: number, v: number, kind: number): 'cover' | 'link' {
    const label =
      kind === 0
        ? this.#drawn.graph.edge(nodeId(this.#graph.ids[u]!), nodeId(this.#graph.ids[v]!), 'FS')
        : 'link';
    return label === undefined ? 'cover' : 'link';
  }

  #cover(u: number, bound: number): Because {
    const task = this.#graph.ids[u]!;
    const words = `It hides ${this.#names.task(task)}, which ${this.#over(u, bound)}.`;
    return { kind: 'cover', task, key: null, words };
  }

  #link(u: number, v: number, bound: number, kind: number): Because {
    const task = this.#graph.ids[u]!;
    const name = this.#names.task(task);
    const waits = kind === 0 && this.#levelled.ready[u]! > this.#levelled.finish[u]!;
    const reason = this.#reasonOf(task, this.#graph.ids[v]!);
    const words =
      kind === 0
        ? `It follows ${name}, which ${this.#over(u, bound)}${reason}.`
        : `It is tied to ${name}${reason}.`;
    return { kind: waits ? 'wait' : 'link', task, key: null, words };
  }

  #over(u: number, bound: number): string {
    const [finish, ready] = [this.#levelled.finish[u]!, this.#levelled.ready[u]!];
    return ready > finish ? `hardens or waits until ${this.#at(bound)}` : `ends ${this.#at(finish)}`;
  }

  #reasonOf(from: string, to: string): string {
    const label = this.#drawn.graph.edge(nodeId(from), nodeId(to), 'FS');
    const reason = label !== undefined && 'stated' in label ? label.stated.reason.trim() : '';
    return reason === '' ? '' : `: ${reason.replace(/\.$/, '')}`;
  }

  /** A finished task whose wait is still running. */
  #finished(v: number, bound: number): Because | null {
    for (const { v: node } of this.#drawn.graph.inEdges(nodeId(this.#graph.ids[v]!)) ?? []) {
      const key = keyOf(node);
      const task = this.#basis.taskOf.get(key);
      if (task === undefined || task.state !== 'finished' || readyOfFinished(this.#basis, task) !== bound)
        continue;
      return {
        kind: 'wait',
        task: key,
        key: null,
        words: `${this.#names.task(key)} hardens or waits until ${this.#at(bound)}.`,
      };
    }
    return null;
  }

  #nothing(): Because {
    return { kind: 'as-of', task: null, key: null, words: 'Nothing holds it: it can start now.' };
  }
}
