/** The addresses under which a build's calendar is read: who has the secret may read it, until it is revoked. */
import { index, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import { builds } from './builds.ts';

/** Not part of the build file: an address is of this machine. Kept as it is, because it can be shown again. */
export const feeds = sqliteTable(
  'feeds',
  {
    secret: text().primaryKey(),
    build: text()
      .notNull()
      .references(() => builds.id, { onDelete: 'cascade' }),
    /** Which device or person it was made for. */
    name: text().notNull(),
    createdAt: text().notNull(),
  },
  (table) => [index('feeds_by_build').on(table.build)],
);
