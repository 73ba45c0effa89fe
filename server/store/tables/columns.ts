/** The kinds of columns the tables are made of. */
import { integer, text } from 'drizzle-orm/sqlite-core';

export const json = <T>() => text({ mode: 'json' }).$type<T>().notNull();
export const maybeJson = <T>() => text({ mode: 'json' }).$type<T>();
export const flag = () => integer({ mode: 'boolean' }).notNull();
export const word = <T extends string>() => text().$type<T>().notNull();
