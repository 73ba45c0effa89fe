/** What was done, as rows: the history, and which action an undo or a redo is about. */
import { and, asc, desc, eq, inArray, lt } from 'drizzle-orm';
import type { Edit, HistoryEntry } from '#shared/contract/changes.ts';
import type { Handle } from './database.ts';
import { actions, journal } from './schema.ts';

/** One row as it was and as it became; `value` and position null where there was none. */
export interface Note {
  readonly noun: Edit['noun'];
  readonly id: string;
  readonly before: Edit['value'];
  readonly after: Edit['value'];
  readonly positionBefore: number | null;
  readonly positionAfter: number | null;
}

export interface Action {
  readonly build: string;
  readonly revision: number;
  readonly at: string;
  readonly who: string;
  readonly label: string;
  readonly kind: 'do' | 'undo' | 'redo';
  /** The action that is taken back or done again. */
  readonly target: number | null;
}

/** @returns the number of the action */
export function writeAction(db: Handle, action: Action, notes: readonly Note[]): number {
  const state = action.kind === 'do' ? 'done' : 'gone';
  const { id } = db
    .insert(actions)
    .values({ ...action, state })
    .returning({ id: actions.id })
    .get();
  for (let from = 0; from < notes.length; from += AT_ONCE) {
    const some = notes.slice(from, from + AT_ONCE);
    db.insert(journal)
      .values(some.map(({ id: row, ...note }) => ({ action: id, row, ...note })))
      .run();
  }
  return id;
}

/** Notes of one statement; see `rows.ts`. */
const AT_ONCE = 50;

/** The notes of an action, in the order they were made. */
export function notesOf(db: Handle, action: number): Note[] {
  const rows = db.select().from(journal).where(eq(journal.action, action)).orderBy(asc(journal.id)).all();
  return rows.map(({ noun, row, before, after, positionBefore, positionAfter }) => ({
    noun: noun as Edit['noun'],
    id: row,
    before: before as Edit['value'],
    after: after as Edit['value'],
    positionBefore,
    positionAfter,
  }));
}

/** Newest first. @param before only actions older than this one */
export function history(db: Handle, build: string, limit: number, before: number | null): HistoryEntry[] {
  const found = db
    .select()
    .from(actions)
    .where(and(eq(actions.build, build), before === null ? undefined : lt(actions.id, before)))
    .orderBy(desc(actions.id))
    .limit(limit)
    .all();
  const rows = new Map<number, HistoryEntry['rows']>(found.map(({ id }) => [id, []]));
  const notes =
    found.length === 0
      ? []
      : db
          .select()
          .from(journal)
          .where(inArray(journal.action, [...rows.keys()]))
          .orderBy(asc(journal.id))
          .all();
  for (const { action, noun, row, ...note } of notes)
    rows.get(action)!.push({
      noun: noun as Edit['noun'],
      id: row,
      before: note.before as Edit['value'],
      after: note.after as Edit['value'],
    });
  return found.map(({ id, revision, at, who, label, kind, state }) => ({
    action: id,
    revision,
    at,
    who,
    label,
    kind,
    state,
    rows: rows.get(id)!,
  }));
}

/** What an undo would take back. */
export function lastDone(db: Handle, build: string): { id: number; label: string } | null {
  return withState(db, build, 'done', 'newest');
}

/** What a redo would do again: of all that was taken back, what was done first. */
export function firstUndone(db: Handle, build: string): { id: number; label: string } | null {
  return withState(db, build, 'undone', 'oldest');
}

function withState(db: Handle, build: string, state: 'done' | 'undone', which: 'newest' | 'oldest') {
  const found = db
    .select({ id: actions.id, label: actions.label })
    .from(actions)
    .where(and(eq(actions.build, build), eq(actions.kind, 'do'), eq(actions.state, state)))
    .orderBy(which === 'newest' ? desc(actions.id) : asc(actions.id))
    .limit(1)
    .get();
  return found ?? null;
}

export function setState(db: Handle, action: number, state: 'done' | 'undone'): void {
  db.update(actions).set({ state }).where(eq(actions.id, action)).run();
}

/** Something new was done: what had been taken back can no longer be done again. */
export function forgetUndone(db: Handle, build: string): void {
  db.update(actions)
    .set({ state: 'gone' })
    .where(and(eq(actions.build, build), eq(actions.state, 'undone')))
    .run();
}

/** The labels of what an undo and a redo would do; null where there is nothing. */
export function undoState(db: Handle, build: string): { canUndo: string | null; canRedo: string | null } {
  return { canUndo: lastDone(db, build)?.label ?? null, canRedo: firstUndone(db, build)?.label ?? null };
}

/** When the build was last changed, an ISO instant; null when nothing was done to it yet. */
export function lastActionAt(db: Handle, build: string): string | null {
  const last = db
    .select({ at: actions.at })
    .from(actions)
    .where(eq(actions.build, build))
    .orderBy(desc(actions.id))
    .limit(1)
    .get();
  return last?.at ?? null;
}
