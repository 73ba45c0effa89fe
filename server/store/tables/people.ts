/** Who works, with what and when: people, tools, conditions. */
import { integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Condition, Person, Tool } from '#shared/contract/calendar.ts';
import { row, rowKey } from './row.ts';
import { flag, json } from './columns.ts';

export const people = sqliteTable(
  'people',
  {
    ...row,
    key: text().notNull(),
    name: text().notNull(),
    sharedAs: text(),
    byNameOnly: flag(),
    rate: integer().notNull(),
    week: json<Person['week']>(),
    exceptions: json<Person['exceptions']>(),
  },
  (table) => [rowKey(table)],
);

export const tools = sqliteTable(
  'tools',
  { ...row, key: text().notNull(), name: text().notNull(), only: json<Tool['only']>() },
  (table) => [rowKey(table)],
);

export const conditions = sqliteTable(
  'conditions',
  {
    ...row,
    key: text().notNull(),
    name: text().notNull(),
    notYearly: json<string[]>(),
    not: json<Condition['not']>(),
    hours: text().notNull(),
    overrides: json<Condition['overrides']>(),
  },
  (table) => [rowKey(table)],
);
