/** What is kept of the work: decisions, purchases, hours, timers, records, weighings, baselines. */
import { sql } from 'drizzle-orm';
import { check, foreignKey, index, integer, real, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Baseline, PhotoRecord, Weighing } from '#shared/contract/log.ts';
import type { Purchase } from '#shared/contract/purchase.ts';
import { row, rowKey } from './row.ts';
import { flag, json, word } from './columns.ts';
import { people } from './people.ts';
import { zones } from './van.ts';
import { phases, tasks } from './work.ts';

export const decisions = sqliteTable(
  'decisions',
  {
    ...row,
    key: text().notNull(),
    question: text().notNull(),
    options: json<string[]>(),
    chosen: text(),
    by: text(),
    leadDays: integer().notNull(),
    locksTasks: json<string[]>(),
    locksPurchases: json<string[]>(),
    putOff: integer().notNull(),
  },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'decisions_by',
      columns: [table.build, table.by],
      foreignColumns: [people.build, people.id],
    }),
  ],
);

export const purchases = sqliteTable(
  'purchases',
  {
    ...row,
    key: text().notNull(),
    supplier: text().notNull(),
    state: word<Purchase['state']>(),
    leadDays: integer().notNull(),
    leadDaysBad: integer(),
    orderedOn: text(),
    promisedOn: text(),
    currency: text(),
    rate: real().notNull(),
    shipping: integer().notNull(),
    shippingTaxPercent: real().notNull().default(0),
    shippingTaxIncluded: flag().default(true),
    charges: json<Purchase['charges']>(),
    discount: integer().notNull(),
    lines: json<Purchase['lines']>(),
    quotes: json<Purchase['quotes']>(),
    deliveries: json<Purchase['deliveries']>(),
    returns: json<Purchase['returns']>(),
    payments: json<Purchase['payments']>(),
    receipts: json<Purchase['receipts']>().default([]),
  },
  (table) => [
    rowKey(table),
    check('purchases_money', sql`${table.shipping} >= 0 and ${table.discount} >= 0`),
  ],
);

export const hours = sqliteTable(
  'hours',
  {
    ...row,
    key: text(),
    task: text(),
    phase: text(),
    person: text().notNull(),
    on: text().notNull(),
    minutes: integer().notNull(),
    note: text().notNull(),
  },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'hours_task',
      columns: [table.build, table.task],
      foreignColumns: [tasks.build, tasks.id],
    }),
    foreignKey({
      name: 'hours_phase',
      columns: [table.build, table.phase],
      foreignColumns: [phases.build, phases.id],
    }),
    foreignKey({
      name: 'hours_person',
      columns: [table.build, table.person],
      foreignColumns: [people.build, people.id],
    }),
    check('hours_minutes', sql`${table.minutes} between 1 and 1440`),
    index('hours_by_day').on(table.build, table.on),
  ],
);

export const timers = sqliteTable(
  'timers',
  {
    ...row,
    key: text(),
    person: text().notNull(),
    task: text(),
    phase: text(),
    startedAt: text().notNull(),
    note: text().notNull(),
  },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'timers_person',
      columns: [table.build, table.person],
      foreignColumns: [people.build, people.id],
    }),
    foreignKey({
      name: 'timers_task',
      columns: [table.build, table.task],
      foreignColumns: [tasks.build, tasks.id],
    }),
    foreignKey({
      name: 'timers_phase',
      columns: [table.build, table.phase],
      foreignColumns: [phases.build, phases.id],
    }),
  ],
);

export const records = sqliteTable(
  'records',
  {
    ...row,
    key: text(),
    zone: text().notNull(),
    depth: text().notNull(),
    task: text(),
    takenAt: text().notNull(),
    file: text(),
    note: text().notNull(),
    marks: json<PhotoRecord['marks']>(),
  },
  (table) => [
    rowKey(table),
    foreignKey({
      name: 'records_zone',
      columns: [table.build, table.zone],
      foreignColumns: [zones.build, zones.id],
    }),
    foreignKey({
      name: 'records_task',
      columns: [table.build, table.task],
      foreignColumns: [tasks.build, tasks.id],
    }),
  ],
);

export const weighings = sqliteTable(
  'weighings',
  {
    ...row,
    key: text(),
    on: text().notNull(),
    front: integer().notNull(),
    rear: integer().notNull(),
    aboard: text().$type<NonNullable<Weighing['aboard']>>(),
    note: text().notNull(),
  },
  (table) => [rowKey(table)],
);

export const baselines = sqliteTable(
  'baselines',
  {
    ...row,
    key: text().notNull(),
    name: text().notNull(),
    on: text().notNull(),
    tasks: json<Baseline['tasks']>(),
  },
  (table) => [rowKey(table)],
);

export const dismissals = sqliteTable(
  'dismissals',
  { ...row, key: text().notNull(), reason: text().notNull(), on: text() },
  (table) => [rowKey(table)],
);
