/** A value against its schema: the compiled check says yes or no, and only a no is taken apart into faults. */
import type { TSchema } from 'typebox';
import { Compile, type Validator } from 'typebox/compile';
import { faultsOf } from '#shared/contract/faults.ts';
import type { FieldFault } from '#shared/errors.ts';

const compiled = new WeakMap<TSchema, Validator>();

/** @returns a fault per field; none when it fits */
export function schemaFaults(schema: TSchema, value: unknown): FieldFault[] {
  let validator = compiled.get(schema);
  if (validator === undefined) compiled.set(schema, (validator = Compile(schema)));
  if (validator.Check(value)) return [];
  const faults = faultsOf(schema, value);
  // The check decides; should the walk find no place for its no, it is still a no.
  return faults.length > 0 ? faults : [{ pointer: '', detail: 'is not as the reference describes it' }];
}
