/** The faults of one record by itself: its schema, and that its id is its own. */
import type { TSchema } from 'typebox';
import type { FieldFault } from '#shared/errors.ts';
import { HEAD_ID } from '#shared/changes/diff.ts';
import { HeadRow, type ChangedNoun } from '#shared/contract/changes.ts';
import { schemaFaults } from './schema-faults.ts';
import { idOf, NOUNS, type AnyRecord } from '#shared/contract/nouns.ts';

export function schemaOf(noun: ChangedNoun): TSchema {
  return noun === 'build' ? HeadRow : NOUNS[noun].schema;
}

/** @param at pointer of the record, put before that of each fault */
export function recordFaults(noun: ChangedNoun, id: string, value: unknown, at: string): FieldFault[] {
  const wrong = schemaFaults(schemaOf(noun), value);
  if (wrong.length > 0) return wrong.map(({ pointer, detail }) => ({ pointer: `${at}${pointer}`, detail }));
  const own = noun === 'build' ? HEAD_ID : idOf(noun, value as AnyRecord);
  return own === id
    ? []
    : [
        {
          pointer: at,
          detail: `has the id "${own}", but is sent as "${id}": a record is stored under its own id`,
        },
      ];
}
