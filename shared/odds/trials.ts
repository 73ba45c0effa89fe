/** The trials of one plan, one after another, and what they tell of its tasks. */
import type { Odds, OddsDistribution, OddsSource } from '../contract/plan-odds.ts';
import type { Draft } from '../schedule/draft.ts';
import { NO_LOWER } from '../schedule/network.ts';
import { wholeMinutes } from '../progress/remaining.ts';
import { DAY } from '../time/clock.ts';
import { NEVER_AGAIN } from '../time/working-set.ts';
import { BY_DATE, BY_LINK, BY_PART, BY_PEOPLE, BY_ROOM, courseOf, type Course } from './course.ts';
import { driverOf } from './help.ts';
import { Correlations, Drives } from './tally.ts';
import { Trial } from './trial.ts';
import { uncertainOf, usableWhen, type Uncertain } from './uncertain.ts';

/** So many drivers and sources are told. */
const MOST_TOLD = 20;
/** A driver seldom on the chain is no driver. */
const LEAST_SHARE = 0.05;
/** A source below this is noise. */
const LEAST_SOURCE = 0.002;

export class Trials {
  readonly #draft: Draft;
  readonly #course: Course;
  readonly #uncertain: Uncertain;
  readonly #trial: Trial;
  readonly #late: Int32Array;
  readonly #drives: Drives;
  /** The pace, then the uncertain tasks, then the purchases; each around 0. */
  readonly #drawn: Float64Array;
  readonly #correlations: Correlations;
  readonly #plannedEnd: number;
  #finished = 0;

  /** @param draft a plan with a finish */
  constructor(draft: Draft, seed: number, kind: OddsDistribution, paceSigma: number) {
    this.#draft = draft;
    this.#course = courseOf(draft);
    this.#uncertain = uncertainOf(draft, seed, kind, paceSigma);
    this.#trial = new Trial(this.#course);
    const { tasks, purchases } = this.#uncertain;
    this.#late = new Int32Array(purchases.length);
    this.#drives = new Drives(draft.net.taskCount);
    this.#drawn = new Float64Array(1 + tasks.length + purchases.length);
    this.#correlations = new Correlations(this.#drawn.length);
    this.#plannedEnd = draft.levelled.end!;
    this.#anchor();
  }

  /**
   * Holds every task that its links and turns alone would let begin before its planned date: the plan has it there, so
   * with the plan's own minutes the trial is the plan.
   */
  #anchor(): void {
    const { levelled } = this.#draft;
    const { order, lower } = this.#course;
    this.#setParts();
    for (const v of order) {
      this.#trial.place(v);
      if (this.#trial.start[v]! >= levelled.start[v]!) continue;
      lower[v] = levelled.start[v]!;
      this.#trial.place(v);
    }
  }

  /** @returns the finish of the next trial, minutes from the build's start; Infinity if it has none */
  next(): number {
    this.#draw();
    const trial = this.#trial;
    const end = trial.forward();
    if (end >= NEVER_AGAIN) return Infinity;
    this.#finished++;
    this.#correlations.add(this.#drawn, (end - this.#plannedEnd) / DAY);
    trial.backward(end);
    for (let v = 0; v < this.#draft.net.taskCount; v++)
      if (trial.drove(v)) this.#drives.add(v, trial.heldBy[v]!, trial.start[v]! - trial.heldUntil[v]!);
    return end;
  }

  #draw(): void {
    const { tasks, purchases, pace } = this.#uncertain;
    const { minutes: planned } = this.#course.net;
    const { minutes } = this.#trial;
    const common = pace();
    this.#drawn[0] = common - 1;
    for (let i = 0; i < tasks.length; i++) {
      const { v, draw } = tasks[i]!;
      const own = draw();
      this.#drawn[1 + i] = own / planned[v]! - 1;
      minutes[v] = Math.min(NEVER_AGAIN, Math.max(1, wholeMinutes(own * common)));
    }
    for (let p = 0; p < purchases.length; p++) {
      this.#late[p] = purchases[p]!.draw();
      this.#drawn[1 + tasks.length + p] = this.#late[p]!;
    }
    this.#setParts();
  }

  #setParts(): void {
    const { parts } = this.#uncertain;
    const { partsFrom } = this.#trial;
    for (let v = 0; v < parts.length; v++) {
      let from = NO_LOWER;
      for (const part of parts[v]!) {
        const usable = part.purchase < 0 ? part.usable : usableWhen(part, this.#late[part.purchase]!);
        if (usable > from) from = usable;
      }
      partsFrom[v] = from;
    }
  }

  /** What the trials so far say of the tasks. */
  told(): Pick<Odds, 'chain' | 'drivers' | 'sources'> {
    const { graph, basis } = this.#draft;
    const live = graph.ids
      .slice(0, graph.taskCount)
      .map((key, v) => ({ key, v }))
      .filter(({ key }) => basis.taskOf.get(key)!.state !== 'finished')
      .map(({ key, v }) => ({ key, v, share: this.#share(v) }));
    return {
      chain: Object.fromEntries(live.toSorted(byKey).map(({ key, share }) => [key, share])),
      drivers: live
        .filter(({ share }) => share >= LEAST_SHARE)
        .toSorted((a, b) => b.share - a.share || byKey(a, b))
        .slice(0, MOST_TOLD)
        .map(({ v, share }) => this.#driver(v, share)),
      sources: this.#sources(),
    };
  }

  #share(v: number): number {
    return this.#finished === 0 ? 0 : this.#drives.times(v) / this.#finished;
  }

  #driver(v: number, share: number) {
    const drives = this.#drives;
    const { tasks } = this.#uncertain;
    const number = tasks.findIndex((task) => task.v === v);
    return driverOf(this.#draft, {
      v,
      share,
      varies: number < 0 ? 0 : this.#correlations.explained(1 + number),
      waitsFor: {
        link: drives.share(v, BY_LINK),
        people: drives.share(v, BY_PEOPLE),
        room: drives.share(v, BY_ROOM),
        part: drives.share(v, BY_PART),
        date: drives.share(v, BY_DATE),
      },
      gap: drives.gap(v),
      purchase: this.#lastPart(v),
    });
  }

  /** The purchase that comes last when nothing is late; null: it waits for no part. */
  #lastPart(v: number): string | null {
    const parts = this.#uncertain.parts[v]!;
    return parts.toSorted((a, b) => b.usable - a.usable || byKey(a, b))[0]?.key ?? null;
  }

  #sources(): OddsSource[] {
    const { tasks, purchases, paceSigma } = this.#uncertain;
    const { ids } = this.#draft.graph;
    const sources: OddsSource[] = [];
    if (paceSigma > 0) sources.push({ kind: 'pace', key: null, share: this.#correlations.explained(0) });
    tasks.forEach(({ v, varies }, i) => {
      if (varies) sources.push({ kind: 'task', key: ids[v]!, share: this.#correlations.explained(1 + i) });
    });
    purchases.forEach(({ key }, p) => {
      const share = this.#correlations.explained(1 + tasks.length + p);
      sources.push({ kind: 'purchase', key, share });
    });
    return sources
      .filter(({ share }) => share >= LEAST_SOURCE)
      .sort((a, b) => b.share - a.share || ((a.key ?? '') < (b.key ?? '') ? -1 : 1))
      .slice(0, MOST_TOLD);
  }
}

function byKey(a: { readonly key: string }, b: { readonly key: string }): number {
  return a.key < b.key ? -1 : a.key > b.key ? 1 : 0;
}
