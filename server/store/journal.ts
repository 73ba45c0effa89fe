/**
 * The journal: the one way a build changes. An action is one transaction that checks what is to be written, writes its
 * rows, notes each as it was and as it became, and raises the build's revision. Undo and redo are actions that replay
 * the notes; they work across restarts because the notes are rows too. There is one line of actions per build, so what
 * an undo finds is exactly what its action left.
 */
import { and, count, eq, sql } from 'drizzle-orm';
import type { Changed, Edit, HeadRow, Row } from '#shared/contract/changes.ts';
import type { AnyRecord, NounName } from '#shared/contract/nouns.ts';
import { HEAD_ID } from '#shared/changes/diff.ts';
import { PlanError } from '#shared/errors.ts';
import {
  firstUndone,
  forgetUndone,
  lastDone,
  notesOf,
  setState,
  undoState,
  writeAction,
  type Action,
  type Note,
} from './actions.ts';
import { asOfToday } from './as-of-today.ts';
import { getBuild, readSnapshot, setHead, setRevision } from './builds.ts';
import { checkEdits } from './check-edits.ts';
import type { Handle, Store } from './database.ts';
import { deleteRow, getRow, insertRows, lastPosition, listIds, once, positionAt, updateRow } from './rows.ts';
import { actions, journal } from './schema.ts';

export interface Actor {
  readonly who: string;
  /** Now, as an ISO instant with zone: when it was written down. */
  readonly at: string;
}

/** A row as written: its note, and the version it has now. */
interface Written {
  readonly note: Note;
  readonly version: number | null;
}

/** @throws PlanError `not-found`, `stale-write`, `bad-change` (a fault per field) */
export function change(
  store: Store,
  build: string,
  label: string,
  edits: readonly Edit[],
  actor: Actor,
): Changed {
  return inTransaction(store, (db) => {
    checkEdits(readSnapshot(db, build), edits);
    const ends = new Ends(db, build);
    const written = edits.map((edit) => write(db, build, edit, positionFor(db, build, edit, ends)));
    forgetUndone(db, build);
    return finish(db, build, { label, kind: 'do', target: null }, written, actor);
  });
}

/** @throws PlanError `not-found`, `nothing-to-undo` */
export function undo(store: Store, build: string, actor: Actor): Changed {
  return inTransaction(store, (db) => {
    getBuild(db, build);
    const target = lastDone(db, build);
    if (target === null) throw new PlanError('There is nothing to undo.', { code: 'nothing-to-undo' });
    const notes = notesOf(db, target.id).toReversed();
    const written = notes.map(({ noun, id, before, positionBefore }) =>
      write(db, build, { noun, id, value: asOfToday(noun, before) }, positionBefore),
    );
    setState(db, target.id, 'undone');
    return finish(db, build, { label: target.label, kind: 'undo', target: target.id }, written, actor);
  });
}

/** @throws PlanError `not-found`, `nothing-to-redo` */
export function redo(store: Store, build: string, actor: Actor): Changed {
  return inTransaction(store, (db) => {
    getBuild(db, build);
    const target = firstUndone(db, build);
    if (target === null) throw new PlanError('There is nothing to do again.', { code: 'nothing-to-redo' });
    const written = notesOf(db, target.id).map(({ noun, id, after, positionAfter }) =>
      write(db, build, { noun, id, value: asOfToday(noun, after) }, positionAfter),
    );
    setState(db, target.id, 'done');
    return finish(db, build, { label: target.label, kind: 'redo', target: target.id }, written, actor);
  });
}

/** Row by row within a transaction the keys may point nowhere for a moment; at its end they may not. */
function inTransaction<T>({ db }: Store, work: (db: Handle) => T): T {
  return db.transaction(
    (tx) => {
      tx.run(sql`pragma defer_foreign_keys = on`);
      return work(tx);
    },
    { behavior: 'immediate' },
  );
}

/** Where a row that is being changed comes to stand; null for one that goes, and for the head. */
function positionFor(db: Handle, build: string, { noun, id, value, at }: Edit, ends: Ends): number | null {
  if (noun === 'build' || value === null) return null;
  if (at === undefined) return getRow(db, build, noun, id)?.position ?? ends.next(noun);
  const position = positionAt(db, build, noun, id, at);
  ends.passed(noun, position);
  return position;
}

/** The positions behind all rows of each list, looked up once: a table taken in may bring rows by the thousand. */
class Ends {
  readonly #db: Handle;
  readonly #build: string;
  readonly #next = new Map<NounName, number>();

  constructor(db: Handle, build: string) {
    this.#db = db;
    this.#build = build;
  }

  next(noun: NounName): number {
    const position = this.#next.get(noun) ?? lastPosition(this.#db, this.#build, noun);
    this.#next.set(noun, position + 1);
    return position;
  }

  /** A row was put there by its place. */
  passed(noun: NounName, position: number): void {
    const next = this.#next.get(noun);
    if (next !== undefined) this.#next.set(noun, Math.max(next, position + 1));
  }
}

/** Sets one row to a value, whatever it was. */
function write(
  db: Handle,
  build: string,
  edit: Pick<Edit, 'noun' | 'id' | 'value'>,
  position: number | null,
): Written {
  const { noun, id, value } = edit;
  if (noun === 'build') return writeHead(db, build, value);
  const found = getRow(db, build, noun, id);
  // A row that comes back starts above every version anyone may have read.
  const version = (found?.version ?? timesWritten(db, build, noun, id)) + 1;
  const row = { id, value: value as unknown as AnyRecord, version, position: position ?? 0 };
  if (value === null) deleteRow(db, build, noun, id);
  else if (found === null) insertRows(db, build, noun, [row]);
  else updateRow(db, build, noun, row);
  const before = (found?.value ?? null) as Edit['value'];
  const note = {
    noun,
    id,
    before,
    after: value,
    positionBefore: found?.position ?? null,
    positionAfter: position,
  };
  return { note, version: value === null ? null : version };
}

function writeHead(db: Handle, build: string, value: Edit['value']): Written {
  const found = getBuild(db, build);
  const version = found.version + 1;
  setHead(db, build, value as unknown as HeadRow, version);
  const before = found.head as unknown as Edit['value'];
  const note = {
    noun: 'build' as const,
    id: HEAD_ID,
    before,
    after: value,
    positionBefore: null,
    positionAfter: null,
  };
  return { note, version };
}

/** A number no version of a row that is gone ever exceeded: 0 for one that never was. */
function timesWritten(db: Handle, build: string, noun: NounName, id: string): number {
  const found = once(db, 'times written', () =>
    db
      .select({ times: count() })
      .from(journal)
      .innerJoin(actions, eq(actions.id, journal.action))
      .where(
        and(
          eq(actions.build, sql.placeholder('build')),
          eq(journal.noun, sql.placeholder('noun')),
          eq(journal.row, sql.placeholder('id')),
        ),
      )
      .prepare(),
  ).get({ build, noun, id });
  // One more than the notes: a row that came with the build's file has a version without a note.
  return found === undefined || found.times === 0 ? 0 : found.times + 1;
}

function finish(
  db: Handle,
  build: string,
  action: Pick<Action, 'label' | 'kind' | 'target'>,
  written: readonly Written[],
  actor: Actor,
): Changed {
  const revision = getBuild(db, build).revision + 1;
  setRevision(db, build, revision);
  const number = writeAction(
    db,
    { ...action, ...actor, build, revision },
    written.map(({ note }) => note),
  );
  const rows = rowsOf(db, build, written);
  return { revision, action: number, label: action.label, who: actor.who, rows, ...undoState(db, build) };
}

/** The rows as they are told: with their place where it is new. */
function rowsOf(db: Handle, build: string, written: readonly Written[]): Row[] {
  const places = new Map<string, ReadonlyMap<string, number>>();
  const placeOf = (noun: NounName, id: string) => {
    let ids = places.get(noun);
    if (ids === undefined)
      places.set(noun, (ids = new Map(listIds(db, build, noun).map((one, i) => [one, i]))));
    return ids.get(id)!;
  };
  return written.map(({ note: { noun, id, after: value, positionBefore, positionAfter }, version }) => {
    const isMoved = noun !== 'build' && value !== null && positionBefore !== positionAfter;
    return { noun, id, version, value, ...(isMoved ? { at: placeOf(noun, id) } : {}) };
  });
}
