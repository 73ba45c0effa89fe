/** What the journal knows of a build's past, day by day: each row as it was before the day on which it was changed. */
import { sql } from 'drizzle-orm';
import { localDay } from '../clock.ts';
import { getBuild } from './builds.ts';
import type { Handle } from './database.ts';

/** A row of the journal that is still text: it is read where there is time for it. */
export interface PastRow {
  readonly noun: string;
  readonly id: string;
  /** JSON; null where the row was not there. */
  readonly before: string | null;
}

export interface TextDay {
  readonly day: string;
  readonly changes: number;
  /** Each row once. */
  readonly rows: readonly PastRow[];
}

export interface Past {
  /** The newest first. */
  readonly days: readonly TextDay[];
  /** The day the build came, or the last one the rows did not reach. */
  readonly since: string;
}

/** Notes looked through at most: further back the past is not told. */
const MOST_NOTES = 100_000;

interface NoteRow {
  readonly action: number;
  readonly at: string;
  readonly noun: string;
  readonly row: string;
  readonly before: string | null;
}

/** @throws PlanError `not-found` */
export function readPast(db: Handle, build: string, most = MOST_NOTES): Past {
  const { createdAt } = getBuild(db, build);
  const notes = db.all<NoteRow>(sql`
    select a.id as action, a.at as at, j.noun as noun, j.row as "row", j.before as before
    from journal j join actions a on a.id = j.action
    where a.build = ${build} order by j.id desc limit ${most}`);
  const days: { day: string; actions: Set<number>; rows: Map<string, PastRow> }[] = [];
  for (const { action, at, noun, row, before } of notes) {
    const day = localDay(at);
    // A clock that was put back makes no new day of an old one.
    if (days.length === 0 || day < days.at(-1)!.day) days.push({ day, actions: new Set(), rows: new Map() });
    const last = days.at(-1)!;
    last.actions.add(action);
    // From the newest on, so that what stays is the row as it was before the first change of the day.
    last.rows.set(`${noun}/${row}`, { noun, id: row, before });
  }
  // Of the day at which the notes end, some may be missing.
  const cut = notes.length === most ? days.pop() : undefined;
  return {
    days: days.map(({ day, actions, rows }) => ({ day, changes: actions.size, rows: [...rows.values()] })),
    since: cut?.day ?? localDay(createdAt),
  };
}
