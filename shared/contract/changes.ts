/** Changes of a build as data: what a client sends, what the journal keeps, what listeners are told. */
import { Type, type Static } from 'typebox';
import { BuildHead } from './build.ts';
import { Instant, Key, Strict } from './common.ts';
import { NOUN_NAMES } from './nouns.ts';
import { Repair } from './plan.ts';
import { Exception } from './task.ts';

/** The build's own head and kept order change like a record of a noun called `build`. */
export const CHANGED = ['build', ...NOUN_NAMES] as const;

const Id = Type.String({ minLength: 1, maxLength: 300, description: 'the id of a record' });
const Version = Type.Integer({ minimum: 1, description: 'the version of the row that was read' });
const At = Type.Integer({
  minimum: 0,
  maximum: 1_000_000,
  description:
    'a place in its list, counted from 0; left out: a new record comes last, others stay where they are',
});

/** One row set (created when `version` is null) or, with `value` null, removed. */
export const Edit = Type.Object(
  {
    noun: Type.Enum([...CHANGED], { description: `one of: ${CHANGED.join(', ')}` }),
    id: Id,
    version: Type.Union([Version, Type.Null()], {
      description: 'the version that was read; null for a new row',
    }),
    value: Type.Union([Type.Object({}, { additionalProperties: true }), Type.Null()], {
      description: 'the whole record; null removes it',
    }),
    /** For lists that people sort: where the record is to stand once the edits before it are made. */
    at: Type.Optional(At),
  },
  Strict,
);

export const ChangeSet = Type.Object(
  {
    /** What the builder did, in a few words: it stands in the history. */
    label: Type.String({
      minLength: 1,
      maxLength: 200,
      format: 'one-line',
      description: 'what was done: one line, 1 to 200 characters, not blank',
    }),
    edits: Type.Array(Edit, { minItems: 1, maxItems: 20_000, description: 'a list of edits' }),
  },
  Strict,
);

/** A row after a change: `version` and `value` null once it is gone, `at` given where its place in the list is new. */
export const Row = Type.Object(
  {
    noun: Edit.properties.noun,
    id: Id,
    version: Edit.properties.version,
    value: Edit.properties.value,
    at: Type.Optional(At),
  },
  Strict,
);

/** What a change did: the build's new revision and every row it touched. */
export const Changed = Type.Object(
  {
    revision: Type.Integer(),
    action: Type.Integer(),
    label: Type.String(),
    who: Type.String(),
    rows: Type.Array(Row),
    canUndo: Type.Union([Type.String(), Type.Null()], { description: 'what an undo would take back' }),
    canRedo: Type.Union([Type.String(), Type.Null()], { description: 'what a redo would do again' }),
  },
  Strict,
);

/** The build's head as a row: its fields and the kept order. */
export const HeadRow = Type.Object({ ...BuildHead.properties, order: Type.Array(Key) }, Strict);

export const RepairRequest = Type.Object(
  {
    repair: Repair,
    at: Type.Optional(Instant),
    by: Type.Optional(Key),
    reason: Type.Optional(Exception.properties.reason),
  },
  Strict,
);

export const HistoryEntry = Type.Object(
  {
    action: Type.Integer(),
    revision: Type.Integer(),
    at: Type.String(),
    who: Type.String(),
    label: Type.String(),
    kind: Type.Enum(['do', 'undo', 'redo']),
    state: Type.Enum(['done', 'undone', 'gone']),
    rows: Type.Array(
      Type.Object(
        {
          noun: Edit.properties.noun,
          id: Id,
          before: Edit.properties.value,
          after: Edit.properties.value,
        },
        Strict,
      ),
    ),
  },
  Strict,
);

export type Edit = Static<typeof Edit>;
export type ChangeSet = Static<typeof ChangeSet>;
export type Row = Static<typeof Row>;
export type Changed = Static<typeof Changed>;
export type HeadRow = Static<typeof HeadRow>;
export type RepairRequest = Static<typeof RepairRequest>;
export type HistoryEntry = Static<typeof HistoryEntry>;
export type ChangedNoun = Edit['noun'];
