/** Builds among each other: which are put away, which comes first for the people they share, and who those people are. */
import { and, asc, eq, isNotNull, sql } from 'drizzle-orm';
import { getBuild, IN_ORDER } from './builds.ts';
import type { Handle, Store } from './database.ts';
import { builds } from './schema.ts';
import { people } from './tables/people.ts';

/** A build as one of all, in order. */
export interface InOrder {
  readonly id: string;
  readonly revision: number;
  readonly createdAt: string;
  readonly archivedAt: string | null;
  readonly startOn: string;
  readonly asOf: string | null;
  /** Has somebody who is known by one name in every build. */
  readonly shares: boolean;
}

/** Asks for every build, the one that has shared people first in front; prepared, because every answer asks it. */
export function orderOf(db: Handle): () => InOrder[] {
  const { id, revision, createdAt, archivedAt, startOn, asOf } = builds;
  const sharing = db
    .select({ one: sql`1` })
    .from(people)
    .where(and(eq(people.build, builds.id), isNotNull(people.sharedAs)));
  const query = db
    .select({ id, revision, createdAt, archivedAt, startOn, asOf, shares: sql<number>`exists ${sharing}` })
    .from(builds)
    .orderBy(...IN_ORDER)
    .prepare();
  return () => query.all().map((row) => ({ ...row, shares: row.shares === 1 }));
}

export interface PersonOf {
  readonly key: string;
  readonly name: string;
  readonly sharedAs: string | null;
}

/** The people of every build, by its id, as its file lists them. */
export function peopleByBuild(db: Handle): ReadonlyMap<string, readonly PersonOf[]> {
  const { build, key, name, sharedAs } = people;
  const found = new Map<string, PersonOf[]>();
  const rows = db
    .select({ build, key, name, sharedAs })
    .from(people)
    .orderBy(asc(people.position), asc(people.id))
    .all();
  for (const { build: id, ...person } of rows) found.set(id, [...(found.get(id) ?? []), person]);
  return found;
}

/** Puts a build away, or brings it back with null. It keeps its place. @throws PlanError `not-found` */
export function setArchived({ db }: Store, id: string, at: string | null): void {
  const { archivedAt } = getBuild(db, id);
  // Put away twice, it was put away the first time.
  if ((archivedAt === null) !== (at === null))
    db.update(builds).set({ archivedAt: at }).where(eq(builds.id, id)).run();
}

/** Puts a build just before another, or behind all with null. @throws PlanError `not-found` for either */
export function moveBuild({ db }: Store, id: string, before: string | null): void {
  db.transaction(
    (tx) => {
      getBuild(tx, id);
      if (before !== null) getBuild(tx, before);
      if (before === id) return;
      const ids = orderOf(tx)()
        .map((one) => one.id)
        .filter((one) => one !== id);
      ids.splice(before === null ? ids.length : ids.indexOf(before), 0, id);
      const place = tx
        .update(builds)
        .set({ place: sql`${sql.placeholder('place')}` })
        .where(eq(builds.id, sql.placeholder('id')))
        .prepare();
      ids.forEach((one, i) => place.run({ id: one, place: i + 1 }));
    },
    { behavior: 'immediate' },
  );
}
