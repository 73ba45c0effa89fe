/** One record in a request: its schemas, reading it with its defaults, and speaking of its fields when it is refused. */
import type { TSchema } from 'typebox';
import { inputOf } from '#shared/contract/build-file.ts';
import { HeadRow, type ChangedNoun } from '#shared/contract/changes.ts';
import { withDefaults } from '#shared/contract/defaults.ts';
import type { SchemaNode } from '#shared/contract/faults.ts';
import { NOUN_NAMES, NOUNS, type AnyRecord, type NounName } from '#shared/contract/nouns.ts';
import { PlanError } from '#shared/errors.ts';
import { nameOf } from '../store/check-edits.ts';
import { schemaOf } from '../store/record-faults.ts';
import { schemaFaults } from '../store/schema-faults.ts';

interface Inputs {
  /** The whole record; fields with a default may be left out. */
  readonly whole: TSchema;
  /** Some of its fields. */
  readonly part: TSchema;
}

const inputs = new Map<ChangedNoun, Inputs>(
  (['build', ...NOUN_NAMES] as const).map((noun) => {
    const whole = inputOf(noun === 'build' ? HeadRow : NOUNS[noun].schema);
    const description = `fields of a ${nameOf(noun)}`;
    return [noun, { whole, part: { ...whole, required: [], description } as TSchema }];
  }),
);

export function inputSchemas(noun: ChangedNoun): Inputs {
  return inputs.get(noun)!;
}

/** Defaults filled in. @throws PlanError `bad-change`, a fault per field */
export function readRecord(noun: NounName, body: unknown): AnyRecord;
export function readRecord(noun: ChangedNoun, body: unknown): object;
export function readRecord(noun: ChangedNoun, body: unknown): object {
  const errors = schemaFaults(inputSchemas(noun).whole, body);
  const [first] = errors;
  if (first === undefined) return withDefaults(schemaOf(noun) as unknown as SchemaNode, body) as object;
  const message = `This ${nameOf(noun)} is not right: ${first.pointer || 'it'} ${first.detail}.`;
  throw new PlanError(message, { code: 'bad-change', errors });
}

/** The fields of a patch over those stored. @throws PlanError `bad-change` when it is no object */
export function merged(stored: object, patch: unknown): object {
  if (typeof patch !== 'object' || patch === null || Array.isArray(patch))
    throw refused('', 'is not right: it must be an object with the fields to change');
  return { ...stored, ...patch };
}

export function refused(pointer: string, detail: string): PlanError {
  return new PlanError(`The record ${detail}.`, { code: 'bad-change', errors: [{ pointer, detail }] });
}

/** A change of one record speaks of its fields, not of a list of edits. */
export function ofOneRecord<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof PlanError) || error.failure.code !== 'bad-change') throw error;
    const own = (text: string) => text.replaceAll('/edits/0/value', '');
    const errors = error.failure.errors.map(({ pointer, detail }) => ({ pointer: own(pointer), detail }));
    throw new PlanError(own(error.message), { code: 'bad-change', errors });
  }
}

/** What was done, for the history: `Change task “Pull the cables”`, at most 200 characters. */
export function labelOf(verb: string, noun: ChangedNoun, record: object): string {
  const { name, question, key } = record as Partial<Record<'name' | 'question' | 'key', string>>;
  const own = name ?? question ?? key;
  const letters = Array.from(`${verb} ${nameOf(noun)}${own === undefined ? '' : ` “${own}”`}`);
  return letters.length <= 200 ? letters.join('') : `${letters.slice(0, 199).join('')}…`;
}
