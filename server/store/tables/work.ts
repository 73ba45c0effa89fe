/** The work: phases, tasks, links, and pairs freed from the cover rule. */
import { sql } from 'drizzle-orm';
import { check, foreignKey, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Link, Task } from '#shared/contract/task.ts';
import { row, rowKey } from './row.ts';
import { flag, json, word } from './columns.ts';

export const phases = sqliteTable(
  'phases',
  { ...row, key: text().notNull(), name: text().notNull(), budget: integer().notNull() },
  (table) => [rowKey(table), check('phases_budget', sql`${table.budget} >= 0`)],
);

export const tasks = sqliteTable(
  'tasks',
  {
    ...row,
    key: text().notNull(),
    name: text().notNull(),
    phase: text(),
    kinds: json<string[]>(),
    minutes: json<Task['minutes']>(),
    people: integer().notNull(),
    who: json<string[]>(),
    tools: json<string[]>(),
    shortestSitting: integer().notNull(),
    waitMinutes: integer().notNull(),
    waitConditions: json<string[]>(),
    waitHoldsZones: flag(),
    conditions: json<string[]>(),
    places: json<Task['places']>(),
    reopenMinutes: integer(),
    steps: json<Task['steps']>(),
    holdPoints: json<Task['holdPoints']>(),
    state: word<Task['state']>(),
    startedAt: text(),
    finishedAt: text(),
    hoursKnown: flag(),
    remainingMinutes: integer(),
    fixedStart: text(),
    fixedWhy: text(),
    cautions: json<Task['cautions']>(),
    option: text(),
    note: text().notNull(),
  },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'tasks_phase',
      columns: [table.build, table.phase],
      foreignColumns: [phases.build, phases.id],
    }),
    check('tasks_people', sql`${table.people} >= 1`),
    check('tasks_finished', sql`(${table.state} = 'finished') = (${table.finishedAt} is not null)`),
  ],
);

export const links = sqliteTable(
  'links',
  {
    ...row,
    from: text().notNull(),
    to: text().notNull(),
    kind: word<Link['kind']>(),
    lagMinutes: integer().notNull(),
    lagOn: word<Link['lagOn']>(),
    reason: text().notNull(),
    why: text().$type<NonNullable<Link['why']>>(),
  },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'links_from',
      columns: [table.build, table.from],
      foreignColumns: [tasks.build, tasks.id],
    }),
    foreignKey({
      name: 'links_to',
      columns: [table.build, table.to],
      foreignColumns: [tasks.build, tasks.id],
    }),
    check('links_lag', sql`${table.lagMinutes} >= 0`),
    check('links_ends', sql`${table.from} <> ${table.to}`),
  ],
);

export const exceptions = sqliteTable(
  'exceptions',
  { ...row, inner: text().notNull(), cover: text().notNull(), reason: text().notNull() },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'exceptions_inner',
      columns: [table.build, table.inner],
      foreignColumns: [tasks.build, tasks.id],
    }),
    foreignKey({
      name: 'exceptions_cover',
      columns: [table.build, table.cover],
      foreignColumns: [tasks.build, tasks.id],
    }),
  ],
);
