/**
 * The two dear answers, snapshot and plan, kept as bytes. A build's revision rises with every write, so an answer is
 * good for as long as the revision it was made of is the one in the store; nothing has to be told to forget. A build
 * whose people work on builds that come first is planned around those: its answers are good for as long as theirs are.
 */
import { createHash } from 'node:crypto';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import type { Plan } from '#shared/contract/plan.ts';
import { computePlan, asOfOf } from '#shared/plan.ts';
import { PlanError } from '#shared/errors.ts';
import { bothBusy, busyOf, withElsewhere } from '#shared/time/elsewhere.ts';
import { undoState } from './actions.ts';
import { orderOf, type InOrder } from './build-order.ts';
import { readSnapshot, type Snapshot } from './builds.ts';
import type { Store } from './database.ts';

export interface Answer {
  readonly etag: string;
  readonly body: Buffer;
}

/** Where a build stands, in short. */
export interface Standing {
  /** The last day by the dates people can keep; null where it is not known. */
  readonly finishOn: string | null;
  /** Share of the estimated hours that is done, 0..1; null when nothing is estimated. */
  readonly complete: number | null;
  readonly tasks: number;
  readonly finished: number;
}

interface PlanAnswer extends Answer {
  readonly busy: Elsewhere;
  readonly standing: Standing;
}

interface Read {
  readonly snapshot: Snapshot;
  readonly undo: ReturnType<typeof undoState>;
}

/** What comes before a build: what it has planned for shared people, and a mark of all it was made of. */
interface Ahead {
  readonly mark: string;
  readonly elsewhere: Elsewhere;
}

const ALONE: Ahead = { mark: '', elsewhere: {} };

/** How many answers of each kind are kept: a few builds, a plan for each at a few moments. */
const KEPT = 8;

export class Answers {
  readonly #store: Store;
  readonly #inOrder: () => readonly InOrder[];
  readonly #read = new Recent<Read>(KEPT);
  readonly #snapshots = new Recent<Answer>(KEPT);
  readonly #plans = new Recent<PlanAnswer>(KEPT);

  constructor(store: Store) {
    this.#store = store;
    this.#inOrder = orderOf(store.db);
  }

  /** The file and the version of every row, as stored. @throws PlanError `not-found` */
  snapshot(build: string): { readonly snapshot: Snapshot } {
    return this.#readOf(this.#find(build).one);
  }

  /** What a client keeps: also what could be undone, and where its people are planned by now. @throws PlanError `not-found` */
  forClient(build: string, now: string): Answer {
    const { one, ahead } = this.#around(build, now);
    const stamp = `${stampOf(one)}${ahead.mark}`;
    return this.#snapshots.get(stamp, () => {
      const { snapshot, undo } = this.#readOf(one);
      return answer(stamp, { ...snapshot, ...undo, elsewhere: ahead.elsewhere });
    });
  }

  /** Where its people are planned at builds that come first. @throws PlanError `not-found` */
  elsewhere(build: string, now: string): Answer {
    const { ahead } = this.#around(build, now);
    return answer(`elsewhere${ahead.mark}`, ahead.elsewhere);
  }

  /** The file that its dates are computed from: without what people do elsewhere. @throws PlanError `not-found` */
  planned(build: string, now: string): BuildFile {
    const { one, ahead } = this.#around(build, now);
    return withElsewhere(this.#readOf(one).snapshot.file, ahead.elsewhere);
  }

  /** @param now the caller's moment, an instant. @throws PlanError `not-found` */
  plan(build: string, now: string): Answer & { readonly standing: Standing } {
    const { one, ahead } = this.#around(build, now);
    return this.#planOf(one, ahead, now);
  }

  #planOf(one: InOrder, { mark, elsewhere }: Ahead, now: string): PlanAnswer {
    const stamp = `${stampOf(one)}@${asOfOf({ build: one }, now)}${mark}`;
    return this.#plans.get(stamp, () => {
      const { file } = this.#readOf(one).snapshot;
      const plan = computePlan(withElsewhere(file, elsewhere), { now });
      const told = Object.keys(elsewhere).length === 0 ? plan : { ...plan, elsewhere };
      return { ...answer(stamp, told), busy: busyOf(file, plan), standing: standingOf(plan) };
    });
  }

  /** Front to back: each build at work that shares people is planned around those before it. */
  #around(build: string, now: string): { readonly one: InOrder; readonly ahead: Ahead } {
    const { one, before } = this.#find(build);
    let ahead = ALONE;
    for (const other of before) {
      if (other.archivedAt !== null || !other.shares) continue;
      const { etag, busy } = this.#planOf(other, ahead, now);
      const mark = createHash('sha256').update(`${ahead.mark} ${etag}`).digest('hex').slice(0, 16);
      ahead = { mark: `.${mark}`, elsewhere: bothBusy(ahead.elsewhere, busy) };
    }
    return { one, ahead };
  }

  #find(id: string): { readonly one: InOrder; readonly before: readonly InOrder[] } {
    const all = this.#inOrder();
    const at = all.findIndex((one) => one.id === id);
    if (at === -1)
      throw new PlanError(`There is no build "${id}".`, { code: 'not-found', what: 'build', id });
    return { one: all[at]!, before: all.slice(0, at) };
  }

  /** One transaction, so that all of it is of one revision. */
  #readOf(one: InOrder): Read {
    return this.#read.get(stampOf(one), () =>
      this.#store.db.transaction((tx) => ({
        snapshot: readSnapshot(tx, one.id),
        undo: undoState(tx, one.id),
      })),
    );
  }
}

/** A build's id, its revision, and when it came: an id may be given again once its build is removed. */
function stampOf({ id, revision, createdAt }: InOrder): string {
  return `${id}.${Date.parse(createdAt).toString(36)}.${revision}`;
}

function answer(stamp: string, value: unknown): Answer {
  return { etag: `"${stamp}"`, body: Buffer.from(JSON.stringify(value)) };
}

function standingOf({ finish, progress: { complete, tasks, finished } }: Plan): Standing {
  return { finishOn: finish.dates?.slice(0, 10) ?? null, complete, tasks, finished };
}

/** A map that lets go of what was not asked for the longest. */
class Recent<T> {
  readonly #most: number;
  readonly #kept = new Map<string, T>();

  constructor(most: number) {
    this.#most = most;
  }

  get(key: string, make: () => T): T {
    const found = this.#kept.get(key) ?? make();
    this.#kept.delete(key);
    this.#kept.set(key, found);
    if (this.#kept.size > this.#most) this.#kept.delete(this.#kept.keys().next().value!);
    return found;
  }
}
