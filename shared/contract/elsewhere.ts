/** Where people who work on several builds of a store are planned already: what a build that comes later works around. */
import { Type, type Static } from 'typebox';
import { Instant, Key, Name, Strict } from './common.ts';

/** One stretch of work at another build. */
export const Busy = Type.Object(
  {
    from: Instant,
    to: Instant,
    /** What the other build is called. */
    build: Name,
  },
  Strict,
);

/** By the name a person has in every build (`sharedAs`), soonest first. */
export const Elsewhere = Type.Record(Key, Type.Array(Busy), {
  description: 'stretches of work at builds that come first, by the shared name of the person',
});

export type Busy = Static<typeof Busy>;
export type Elsewhere = Readonly<Record<string, readonly Busy[]>>;
