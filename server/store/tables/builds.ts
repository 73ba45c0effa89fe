/** The builds themselves: what each says of itself, its revision, and the version of that row. */
import { integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { BuildHead } from '#shared/contract/build.ts';
import { json, maybeJson, word } from './columns.ts';

export const builds = sqliteTable('builds', {
  id: text().primaryKey(),
  revision: integer().notNull(),
  version: integer().notNull(),
  createdAt: text().notNull(),
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
