/**
 * Why a task starts when it does: the one thing that holds it. Looked at from the start backwards: something had the
 * person, tool or zone until then; else a condition, tool or long enough sitting came only then; else what came before;
 * else its people's windows.
 */
import { byKey } from '../../contract/by-key.ts';
import type { Busy } from '../../contract/elsewhere.ts';
import type { Because } from '../../contract/plan.ts';
import type { Task } from '../../contract/task.ts';
import type { Names } from '../../covers/names.ts';
import type { CompiledGraph } from '../../graph/compile.ts';
import type { TaskGraph } from '../../graph/task-graph.ts';
import { instantOf, instantText } from '../../time/clock.ts';
import { takenOf } from '../../time/elsewhere.ts';
import { finishOf, firstStart } from '../../time/working-set.ts';
import { durationWords, instantWords, dayWords, listWords } from '../../time/words.ts';
import { usableFrom, type Basis } from '../basis.ts';
import { NO_LOWER, NOT_BEGUN, type Network } from '../network.ts';
import type { Levelled } from './generate.ts';
import { Holders, type Holder } from './holder.ts';
import type { Spot } from './place.ts';

/** The bound that counts, and whether it is one on the finish. */
interface Bound {
  readonly instant: number;
  readonly onFinish: boolean;
}

export class Reasons {
  readonly #basis: Basis;
  readonly #graph: CompiledGraph;
  readonly #net: Network;
  readonly #levelled: Levelled;
  readonly #names: Names;
  readonly #holders: Holders;
  /** What other builds take of people, by person; only those of whom something is taken. */
  readonly #elsewhere: ReadonlyMap<string, readonly Busy[]>;

  constructor(
    basis: Basis,
    drawn: TaskGraph,
    graph: CompiledGraph,
    net: Network,
    levelled: Levelled,
    names: Names,
  ) {
    this.#basis = basis;
    this.#graph = graph;
    this.#net = net;
    this.#levelled = levelled;
    this.#names = names;
    this.#holders = new Holders(basis, drawn, graph, net, levelled);
    const taken = basis.file.people.map((person) => [person.key, takenOf(person)] as const);
    this.#elsewhere = new Map(taken.filter(([, busy]) => busy.length > 0));
  }

  /** @returns null for a task without dates */
  of(v: number): Because | null {
    const spot = this.#levelled.spots[v] ?? null;
    if (spot === null) return null;
    const bound = this.#bound(v, spot);
    return (
      this.#resumed(v, spot, bound) ??
      this.#taken(spot) ??
      this.#notYetPossible(v, spot, bound) ??
      this.#atOtherBuild(v, spot, bound) ??
      this.#before(v, bound) ??
      this.#noWindow(spot) ??
      this.#nothing()
    );
  }

  #task(v: number): Task {
    return this.#basis.taskOf.get(this.#graph.ids[v]!)!;
  }

  #at(instant: number): string {
    return instantWords(this.#basis.clock, instant);
  }

  /** A bound on the finish counts only where the run from the bound on the start would end before it. */
  #bound(v: number, { team }: Spot): Bound {
    const lower = this.#levelled.lower[v]!;
    const lowerFinish = this.#levelled.lowerFinish[v]!;
    const onFinish = lowerFinish !== NO_LOWER && this.#soonest(v, team.set, lower) < lowerFinish;
    return { instant: onFinish ? lowerFinish : lower, onFinish };
  }

  /** When a run begun as soon as possible from an instant on would end, whoever is taken. */
  #soonest(v: number, set: number, from: number): number {
    const minutes = this.#net.minutes[v]!;
    if (minutes === 0) return from;
    const open = this.#basis.calendar.sets[set]!;
    return finishOf(open, firstStart(open, from, minutes, this.#net.sitting[v]!), minutes);
  }

  /** A started task that goes on at the next moment its people are there. */
  #resumed(v: number, spot: Spot, bound: Bound): Because | null {
    if (this.#net.begun[v] === NOT_BEGUN || spot.obstacle !== null) return null;
    if (bound.instant > this.#basis.asOf || bound.onFinish) return null;
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

  /** Its people are there earlier, but a condition does not hold, a tool is not there or the sitting is too short. */
  #notYetPossible(v: number, spot: Spot, bound: Bound): Because | null {
    if (spot.pieces.length === 0 || bound.onFinish) return null;
    const { calendar } = this.#basis;
    const { conditions, tools } = this.#task(v);
    const { people } = spot.team;
    const first = (condition: readonly string[], tool: readonly string[]) =>
      firstStart(calendar.sets[calendar.setOf(people.length, people, condition, tool)]!, bound.instant, 1, 1);
    const there = first([], []);
    if (there >= spot.start) return null;
    const task = this.#before(v, bound)?.task ?? null;
    const from = this.#at(spot.start);
    for (const key of conditions.toSorted())
      if (first([key], []) > there) {
        const words = `It needs: ${this.#names.condition(key)}. That holds from ${from}.`;
        return { kind: 'condition', task, key, words };
      }
    for (const key of tools.toSorted())
      if (first([], [key]) > there) {
        const words = `It needs the ${this.#names.tool(key)}, which is there from ${from}.`;
        return { kind: 'tool', task, key, words };
      }
    const sitting = durationWords(this.#net.sitting[v]!);
    const words = `It needs a sitting of at least ${sitting}; ${this.#have(people)} one from ${from}.`;
    return { kind: 'window', task, key: null, words };
  }

  /** Another build of the store has one of its people until then. */
  #atOtherBuild(v: number, spot: Spot, bound: Bound): Because | null {
    const { clock, asOf } = this.#basis;
    const first = Math.max(bound.instant, asOf);
    if (this.#elsewhere.size === 0 || bound.onFinish || spot.start <= first) return null;
    const { people } = spot.team;
    const [from, to] = [instantText(clock, first), instantText(clock, spot.start)];
    const taken = people.flatMap((key) =>
      (this.#elsewhere.get(key) ?? [])
        .filter((busy) => busy.from < to && busy.to > from)
        .map((busy) => ({ key, ...busy })),
    );
    const last = taken.reduce<(typeof taken)[number] | null>(
      (a, b) => (a === null || b.to > a.to ? b : a),
      null,
    );
    if (last === null) return null;
    const goesOn = last.to === to && people.length === 1;
    const next = `; ${this.#have(people)} the next ${people.length === 1 ? '' : 'common '}window from ${this.#at(spot.start)}`;
    const words = `${this.#names.person(last.key)} is at ${last.build} until ${this.#at(instantOf(clock, last.to))}${goesOn ? '' : next}.`;
    return { kind: 'window', task: this.#before(v, bound)?.task ?? null, key: last.key, words };
  }

  /** What came before: a task, a part, a fixed date. */
  #before(v: number, bound: Bound): Because | null {
    if (!bound.onFinish && bound.instant <= this.#basis.asOf) return null;
    return (
      (bound.onFinish ? null : (this.#fixed(v, bound.instant) ?? this.#part(v, bound.instant))) ??
      this.#following(v, bound)
    );
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
    const [part] = (this.#basis.partsOf.get(this.#graph.ids[v]!) ?? [])
      .filter((one) => usableFrom(this.#basis, one) === bound)
      .sort((a, b) => (a.purchase === b.purchase ? byKey(a.line, b.line) : byKey(a.purchase, b.purchase)));
    if (part === undefined) return null;
    const words = `It waits for a part: ${part.line.name}, in hand on ${dayWords(part.day!)}.`;
    return { kind: 'part', task: null, key: part.purchase.key, words };
  }

  #following(v: number, { instant, onFinish }: Bound): Because | null {
    const holder = this.#holders.of(v, instant, onFinish);
    if (holder === null) return null;
    const { task, by, plain } = holder;
    const name = this.#names.task(task);
    const why = holder.reason === '' ? '' : `: ${holder.reason.replace(/\.$/, '')}`;
    if (plain && holder.finished)
      return { kind: 'wait', task, key: null, words: `${name} hardens or waits until ${this.#at(instant)}.` };
    if (by === 'cover')
      return {
        kind: 'cover',
        task,
        key: null,
        words: `It hides ${name}, which ${this.#over(holder, instant)}.`,
      };
    if (!plain) {
      const tie =
        holder.kind === 'FS' ? `follows ${name} with a lag until ${this.#at(instant)}` : `is tied to ${name}`;
      return { kind: 'link', task, key: null, words: `It ${tie}${why}.` };
    }
    const words = `It follows ${name}, which ${this.#over(holder, instant)}${why}.`;
    return { kind: this.#waits(holder) ? 'wait' : 'link', task, key: null, words };
  }

  #waits({ task }: Holder): boolean {
    const u = this.#graph.indexOf.get(task)!;
    return this.#levelled.ready[u]! > this.#levelled.finish[u]!;
  }

  #over(holder: Holder, bound: number): string {
    return this.#waits(holder) ? `hardens or waits until ${this.#at(bound)}` : `ends ${this.#at(bound)}`;
  }

  /** It could start now, if its people were there. */
  #noWindow(spot: Spot): Because | null {
    const { people } = spot.team;
    if (people.length === 0 || spot.start <= this.#basis.asOf) return null;
    const words = `${this.#have(people)} no${people.length === 1 ? '' : ' common'} window before ${this.#at(spot.start)}.`;
    return { kind: 'window', task: null, key: null, words };
  }

  #have(people: readonly string[]): string {
    return `${listWords(people.map(this.#names.person))} ${people.length === 1 ? 'has' : 'have'}`;
  }

  #nothing(): Because {
    return { kind: 'as-of', task: null, key: null, words: 'Nothing holds it: it can start now.' };
  }
}
