/** The vehicle: depths, zones and the groups that share room. */
import { sql } from 'drizzle-orm';
import { check, integer, sqliteTable, text } from 'drizzle-orm/sqlite-core';
import type { Depth, Zone } from '#shared/contract/shell.ts';
import { row, rowKey } from './row.ts';
import { json, word } from './columns.ts';

export const depths = sqliteTable(
  'depths',
  { ...row, key: text().notNull(), name: text().notNull(), hatch: word<Depth['hatch']>() },
  (table) => [rowKey(table)],
);

export const zones = sqliteTable(
  'zones',
  {
    ...row,
    key: text().notNull(),
    name: text().notNull(),
    face: word<Zone['face']>(),
    bay: integer(),
    capacity: integer().notNull(),
    depths: json<string[]>(),
  },
  (table) => [rowKey(table), check('zones_capacity', sql`${table.capacity} >= 1`)],
);

export const zoneGroups = sqliteTable(
  'zone_groups',
  { ...row, key: text().notNull(), zones: json<string[]>(), capacity: integer().notNull() },
  (table) => [rowKey(table), check('zone_groups_capacity', sql`${table.capacity} >= 1`)],
);
