/** What was done: an action per user action, and a note for each row it touched. */
import { index, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { maybeJson, word } from './columns.ts';
import { builds } from './builds.ts';

/** What somebody did: one entry a user action, however many rows it touched. */
export const actions = sqliteTable(
  'actions',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    build: text()
      .notNull()
      .references(() => builds.id, { onDelete: 'cascade' }),
    revision: integer().notNull(),
    at: text().notNull(),
    who: text().notNull(),
    label: text().notNull(),
    kind: word<'do' | 'undo' | 'redo'>(),
    /** Of a `do`: still in force, taken back, or taken back and overtaken by something new. */
    state: word<'done' | 'undone' | 'gone'>(),
    /** Of an undo or redo: the action it takes back or does again. */
    target: integer(),
  },
  (table) => [index('actions_by_build').on(table.build, table.id)],
);

/** The journal: each row an action touched, as it was and as it became. */
export const journal = sqliteTable(
  'journal',
  {
    id: integer().primaryKey({ autoIncrement: true }),
    action: integer()
      .notNull()
      .references(() => actions.id, { onDelete: 'cascade' }),
    noun: text().notNull(),
    row: text().notNull(),
    before: maybeJson<object>(),
    after: maybeJson<object>(),
    /** Where it stood in its list and where it came to stand; null where it was not. */
    positionBefore: real(),
    positionAfter: real(),
  },
  (table) => [index('journal_by_action').on(table.action), index('journal_by_row').on(table.noun, table.row)],
);
