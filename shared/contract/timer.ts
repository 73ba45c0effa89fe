/** A timer that runs: who works on what since when. It is a record like any other, so it outlives a reload and a phone. */
import { Type, type Static } from 'typebox';
import { Instant, Key, Maybe, Strict, Text } from './common.ts';

/** One a person at most; stopping it turns it into an entry of hours. `task` and `phase` null: sorted later. */
export const Timer = Type.Object(
  {
    /** Null in a file: the store gives one. */
    key: Maybe(Key),
    person: Key,
    task: Maybe(Key),
    phase: Maybe(Key),
    startedAt: Instant,
    note: Text,
  },
  Strict,
);

export type Timer = Static<typeof Timer>;
