/**
 * Calendar arithmetic against a minute-by-minute simulation: working sets of several people, conditions and tools,
 * with the prefix sums and tables of the one checked against plain counting in the other.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Calendar } from '#shared/time/calendar.ts';
import { dayNumber } from '#shared/time/days.ts';
import {
  after,
  backFrom,
  finishOf,
  firstStart,
  lastStart,
  NEVER_AGAIN,
  NEVER_BEFORE,
  runPieces,
  workedBefore,
} from '#shared/time/working-set.ts';
import { crew } from '../support/arbitrary-builds.ts';
import { makeBuild, START, task } from '../support/builds.ts';
import { isAdmissible, runEnd, workable } from '../support/minute-by-minute.ts';

const DAYS = 16;
const LENGTH = DAYS * 1440;

/** A set over a short calendar, and the same as a row of minutes. */
const both = crew.chain(({ people, tools, conditions }) =>
  fc
    .record({
      count: fc.integer({ min: 1, max: people.length }),
      needs: fc.subarray(conditions.map(({ key }) => key)),
      with: fc.subarray(tools.map(({ key }) => key)),
    })
    .map(({ count, needs, with: used }) => {
      const file = makeBuild({
        people,
        tools,
        conditions,
        tasks: [task('t', 60, { conditions: needs, tools: used })],
      });
      const first = dayNumber(START);
      const calendar = new Calendar(file, { from: first, to: first + DAYS }, first);
      const team = file.people.map(({ key }) => key);
      return {
        set: calendar.sets[calendar.setOf(count, team, needs, used)]!,
        open: workable(file, file.tasks[0]!, team, count, LENGTH),
      };
    }),
);

const instant = fc.integer({ min: 0, max: LENGTH - 1 });
const minutes = fc.oneof(fc.integer({ min: 1, max: 90 }), fc.integer({ min: 1, max: 1500 }));
const sitting = fc.integer({ min: 1, max: 300 });

describe('a working set', () => {
  it('should be open at just the minutes at which enough people are there, conditions hold and tools are there', () => {
    fc.assert(
      fc.property(both, ({ set, open }) => {
        const drawn = new Uint8Array(LENGTH);
        set.starts.forEach((start, p) => drawn.fill(1, start, set.ends[p]));
        expect(Buffer.compare(drawn, open)).toBe(0);
      }),
    );
  });

  it('should count the worked minutes before any instant', () => {
    fc.assert(
      fc.property(both, instant, ({ set, open }, at) => {
        expect(workedBefore(set, at)).toBe(open.subarray(0, at).reduce((sum, is) => sum + is, 0));
      }),
    );
  });

  it('should find the first admissible start: worked, with enough of the sitting left', () => {
    fc.assert(
      fc.property(both, instant, minutes, sitting, ({ set, open }, at, length, wanted) => {
        const least = Math.min(wanted, length);
        let first = at;
        while (first < LENGTH && !isAdmissible(open, first, least)) first++;
        const ends = first < LENGTH && runEnd(open, first, length) !== -1;
        expect(firstStart(set, at, length, least)).toBe(ends ? first : NEVER_AGAIN);
      }),
    );
  });

  it('should end a run with its last worked minute and pause only where windows do', () => {
    fc.assert(
      fc.property(both, instant, minutes, ({ set, open }, at, length) => {
        const start = firstStart(set, at, length, 1);
        fc.pre(start !== NEVER_AGAIN);
        expect(finishOf(set, start, length)).toBe(runEnd(open, start, length));
        const worked = new Uint8Array(LENGTH);
        for (const [from, to] of runPieces(set, start, length)) worked.fill(1, from, to);
        const end = runEnd(open, start, length);
        expect(Buffer.compare(worked.subarray(start, end), open.subarray(start, end))).toBe(0);
        expect(worked.reduce((sum, is) => sum + is, 0)).toBe(length);
      }),
    );
  });

  it('should find the last admissible start that is early enough and ends in time', () => {
    fc.assert(
      fc.property(both, instant, instant, minutes, sitting, ({ set, open }, by, end, length, wanted) => {
        const least = Math.min(wanted, length);
        let last = Math.min(by, end);
        const fits = (m: number) =>
          isAdmissible(open, m, least) && runEnd(open, m, length) !== -1 && runEnd(open, m, length) <= end;
        while (last >= 0 && !fits(last)) last--;
        expect(lastStart(set, by, end, length, least)).toBe(last >= 0 ? last : NEVER_BEFORE);
      }),
    );
  });

  it('should let a wait run only while it is open, and find back from its end to the latest beginning', () => {
    fc.assert(
      fc.property(both, instant, minutes, ({ set, open }, at, length) => {
        const over = runEnd(open, at, length);
        expect(after(set, at, length)).toBe(over === -1 ? NEVER_AGAIN : over);
        let latest = at;
        for (let waited = 0; latest > 0 && waited < length;) waited += open[--latest]!;
        if (open.subarray(latest, at).reduce((sum, is) => sum + is, 0) < length) latest = -1;
        expect(backFrom(set, at, length)).toBe(latest >= 0 ? latest : NEVER_BEFORE);
      }),
    );
  });
});
