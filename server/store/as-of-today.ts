/** A note of the journal may be older than a field: what a record did not have yet is what a file that leaves it out gets. */
import type { Edit } from '#shared/contract/changes.ts';
import { withDefaults } from '#shared/contract/defaults.ts';
import type { SchemaNode } from '#shared/contract/faults.ts';
import { schemaOf } from './record-faults.ts';

export function asOfToday(noun: Edit['noun'], value: Edit['value']): Edit['value'] {
  return withDefaults(schemaOf(noun) as unknown as SchemaNode, value) as Edit['value'];
}
