/** What every table of a noun has besides its fields, and how its rows are told apart. */
import { integer, primaryKey, real, text, type AnySQLiteColumn } from 'drizzle-orm/sqlite-core';
import { builds } from './builds.ts';

/** `position` keeps the order of lists that people sort; between two there is room for a third. */
export const row = {
  build: text()
    .notNull()
    .references(() => builds.id, { onDelete: 'cascade' }),
  id: text().notNull(),
  version: integer().notNull(),
  position: real().notNull(),
};

export const rowKey = (table: { build: AnySQLiteColumn; id: AnySQLiteColumn }) =>
  primaryKey({ columns: [table.build, table.id] });
