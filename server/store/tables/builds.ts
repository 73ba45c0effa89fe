/** The builds themselves: what each says of itself, its revision, and the version of that row. */
import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { BuildHead } from '#shared/contract/build.ts';
import { json, maybeJson, word } from './columns.ts';

export const builds = sqliteTable('builds', {
  id: text().primaryKey(),
  revision: integer().notNull(),
  version: integer().notNull(),
  createdAt: text().notNull(),
  /** Put away: not planned against, shown folded. Null: at work. */
  archivedAt: text(),
  /** Builds that share people: the one with the lower place has them first; of equals the older. */
  place: real().notNull().default(0),
  name: text().notNull(),
  vehicle: text().notNull(),
  currency: text().notNull(),
  units: word<BuildHead['units']>(),
  startOn: text().notNull(),
  targetFinishOn: text(),
  asOf: text(),
  budget: integer(),
  contingencyPercent: real().notNull(),
  pace: json<BuildHead['pace']>(),
  moneyIn: json<BuildHead['moneyIn']>(),
  limits: maybeJson<BuildHead['limits']>(),
  order: json<string[]>(),
});
