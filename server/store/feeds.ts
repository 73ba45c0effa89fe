/** Secret addresses of a build's calendar: made, listed, looked up and revoked. They are not part of the build. */
import { randomBytes } from 'node:crypto';
import { and, asc, count, eq } from 'drizzle-orm';
import { PlanError } from '#shared/errors.ts';
import type { Handle } from './database.ts';
import { feeds } from './schema.ts';

export interface Feed {
  readonly secret: string;
  readonly build: string;
  readonly name: string;
  readonly createdAt: string;
}

/** 256 bits: nobody guesses one. */
const SECRET_BYTES = 32;
const MOST = 50;

export function listFeeds(db: Handle, build: string): Feed[] {
  return db
    .select()
    .from(feeds)
    .where(eq(feeds.build, build))
    .orderBy(asc(feeds.createdAt), asc(feeds.secret))
    .all();
}

/** @throws PlanError `bad-request` when there are too many */
export function addFeed(db: Handle, build: string, name: string, createdAt: string): Feed {
  const there = db.select({ n: count() }).from(feeds).where(eq(feeds.build, build)).get()?.n ?? 0;
  if (there >= MOST) {
    const detail = `there are ${MOST} addresses already: revoke one first`;
    throw new PlanError(`No more calendar addresses: ${detail}.`, {
      code: 'bad-request',
      errors: [{ pointer: '', detail }],
    });
  }
  const feed = { secret: randomBytes(SECRET_BYTES).toString('base64url'), build, name, createdAt };
  db.insert(feeds).values(feed).run();
  return feed;
}

/** Null for one that never was or is revoked. */
export function findFeed(db: Handle, secret: string): Feed | null {
  return db.select().from(feeds).where(eq(feeds.secret, secret)).get() ?? null;
}

/** @throws PlanError `not-found` */
export function revokeFeed(db: Handle, build: string, secret: string): void {
  const { changes } = db
    .delete(feeds)
    .where(and(eq(feeds.build, build), eq(feeds.secret, secret)))
    .run();
  if (changes === 0)
    throw new PlanError('There is no such calendar address.', { code: 'not-found', what: 'address', id: '' });
}
