/**
 * The two dear answers, snapshot and plan, kept as bytes. A build's revision rises with every write, so an answer is
 * good for as long as the revision it was made of is the one in the store; nothing has to be told to forget.
 */
import { eq, sql } from 'drizzle-orm';
import { computePlan, asOfOf } from '#shared/plan.ts';
import { PlanError } from '#shared/errors.ts';
import { undoState } from './actions.ts';
import { readSnapshot, type Snapshot } from './builds.ts';
import type { Store } from './database.ts';
import { builds } from './schema.ts';

export interface Answer {
  readonly etag: string;
  readonly body: Buffer;
}

/** How many answers of each kind are kept: a few builds, a plan for each at a few moments. */
const KEPT = 8;

export class Answers {
  readonly #store: Store;
  readonly #snapshots = new Recent<Answer & { readonly snapshot: Snapshot }>(KEPT);
  readonly #plans = new Recent<Answer>(KEPT);
  readonly #revision;

  constructor(store: Store) {
    this.#store = store;
    this.#revision = store.db
      .select({ revision: builds.revision, createdAt: builds.createdAt })
      .from(builds)
      .where(eq(builds.id, sql.placeholder('id')))
      .prepare();
  }

  /** The file, the version of every row, and what could be undone. @throws PlanError `not-found` */
  snapshot(build: string): Answer & { readonly snapshot: Snapshot } {
    const stamp = this.#stampOf(build);
    return this.#snapshots.get(stamp, () => {
      const { db } = this.#store;
      // One transaction, so that all of it is of one revision.
      const [snapshot, state] = db.transaction(
        (tx) => [readSnapshot(tx, build), undoState(tx, build)] as const,
      );
      return { snapshot, ...answer(stamp, { ...snapshot, ...state }) };
    });
  }

  /** @param now the caller's moment, an instant. @throws PlanError `not-found` */
  plan(build: string, now: string): Answer {
    const { etag, snapshot } = this.snapshot(build);
    const stamp = `${etag.slice(1, -1)}@${asOfOf(snapshot.file, now)}`;
    return this.#plans.get(stamp, () => answer(stamp, computePlan(snapshot.file, { now })));
  }

  /** A build's id, its revision, and when it came: an id may be given again once its build is removed. */
  #stampOf(id: string): string {
    const found = this.#revision.get({ id });
    if (found === undefined)
      throw new PlanError(`There is no build "${id}".`, { code: 'not-found', what: 'build', id });
    return `${id}.${Date.parse(found.createdAt).toString(36)}.${found.revision}`;
  }
}

function answer(stamp: string, value: unknown): Answer {
  return { etag: `"${stamp}"`, body: Buffer.from(JSON.stringify(value)) };
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
