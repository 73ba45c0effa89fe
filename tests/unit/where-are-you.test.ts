/** A van that is half built when its plan is made: what is taken as finished from the depths that are in. */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { whereAreYou } from '#shared/progress/where-are-you.ts';
import { link, makeBuild, START, task } from '../support/builds.ts';

const DEPTHS = ['metal', 'wires', 'sheet', 'lining'];
const AS_OF = '2026-06-20T18:00';

describe('where you are', () => {
  it('should take as finished what works at or behind the depth that is in, with hours nobody knows', () => {
    const { finished, after } = whereAreYou(wall(), [{ zone: 'L', depth: 'sheet' }], { asOf: AS_OF });
    expect(finished).toEqual(['primer', 'cable', 'sheet']);
    expect(after.tasks.map(({ key, state, hoursKnown }) => [key, state, hoursKnown])).toEqual([
      ['primer', 'finished', false],
      ['cable', 'finished', false],
      ['sheet', 'finished', false],
      ['lining', 'not-started', true],
      ['drawing', 'not-started', true],
    ]);
  });

  it('should take along what a link or a cover puts before it, in other zones too', () => {
    const file = wall({
      links: [link('drawing', 'cable'), link('shelf', 'sheet')],
      tasks: [task('shelf', 60, { places: [{ zone: 'F', depth: 'sheet', hides: 'wires' }] })],
    });
    const { finished } = whereAreYou(file, [{ zone: 'L', depth: 'sheet' }], { asOf: AS_OF });
    expect(finished.toSorted()).toEqual(['cable', 'drawing', 'primer', 'sheet', 'shelf']);
  });

  it('should have every wait over by now, one that needs a condition too', () => {
    const warm = { key: 'warm', name: 'warm', not: [{ from: '2026-06-10', to: '2026-06-19' }] };
    const base = wall();
    const file = makeBuild({
      ...base,
      conditions: [warm],
      depths: DEPTHS,
      tasks: base.tasks.map((one) =>
        one.key === 'sheet' ? { ...one, waitMinutes: 2880, waitConditions: ['warm'] } : one,
      ),
    });
    const { after } = whereAreYou(file, [{ zone: 'L', depth: 'sheet' }], { asOf: AS_OF });
    // 18 h of the 48 on 20 June, the rest before it turned cold.
    expect(after.tasks.find(({ key }) => key === 'sheet')!.finishedAt).toBe('2026-06-08T18:00');
  });

  it('should not ask for the end of what only has to begin before it', () => {
    const file = wall({ links: [link('drawing', 'cable', { kind: 'SS' })] });
    const { finished } = whereAreYou(file, [{ zone: 'L', depth: 'wires' }], { asOf: AS_OF });
    expect(finished).not.toContain('drawing');
  });

  it('should leave open what also works in front of the depth', () => {
    const file = wall({
      tasks: [
        task('both', 60, {
          places: [
            { zone: 'L', depth: 'metal', hides: null },
            { zone: 'L', depth: 'lining', hides: null },
          ],
        }),
      ],
    });
    const { finished } = whereAreYou(file, [{ zone: 'L', depth: 'metal' }], { asOf: AS_OF });
    expect(finished).toEqual(['primer']);
  });

  it('should date them in order, their waits over by the as-of instant', () => {
    const gone = { state: 'finished', startedAt: '2026-06-02T08:00', finishedAt: '2026-06-02T09:00' };
    const file = wall({ done: { drawing: gone } });
    const { after } = whereAreYou(file, [{ zone: 'L', depth: 'sheet' }], { asOf: AS_OF });
    const at = Object.fromEntries(after.tasks.map(({ key, finishedAt }) => [key, finishedAt]));
    // The primer hardens for two days before the cable; the glue of the sheet for one, until now.
    expect(at).toMatchObject({
      sheet: '2026-06-19T18:00',
      cable: '2026-06-19T18:00',
      primer: '2026-06-17T18:00',
    });
    const { tasks } = computePlan(after, { now: AS_OF });
    expect(tasks['lining']!.dates!.start).toBe(AS_OF);
  });

  it('should not date one before what was finished before it, nor after what was begun behind it', () => {
    const file = wall({
      links: [link('drawing', 'primer')],
      done: { drawing: { state: 'finished', startedAt: '2026-06-18T08:00', finishedAt: '2026-06-18T09:00' } },
    });
    const { after } = whereAreYou(file, [{ zone: 'L', depth: 'wires' }], { asOf: AS_OF });
    expect(after.tasks.find(({ key }) => key === 'primer')!.finishedAt).toBe('2026-06-18T18:00');

    const begun = wall({ done: { lining: { state: 'started', startedAt: '2026-06-10T08:00' } } });
    const { after: then } = whereAreYou(begun, [{ zone: 'L', depth: 'sheet' }], { asOf: AS_OF });
    expect(then.tasks.find(({ key }) => key === 'sheet')!.finishedAt).toBe('2026-06-09T08:00');
  });

  it('should keep the moment at which a task under way was begun, and drop what was left of it', () => {
    const file = wall({
      done: { cable: { state: 'started', startedAt: '2026-06-02T08:00', remainingMinutes: 30 } },
    });
    const { after } = whereAreYou(file, [{ zone: 'L', depth: 'wires' }], { asOf: AS_OF });
    expect(after.tasks.find(({ key }) => key === 'cable')).toMatchObject({
      state: 'finished',
      startedAt: '2026-06-02T08:00',
      remainingMinutes: null,
    });
  });

  it('should leave a check behind a cover unsigned, so that the plan says it was covered unchecked', () => {
    const file = wall({
      done: { cable: { holdPoints: [{ key: 'ohm', kind: 'continuity', name: 'every wire rings through' }] } },
    });
    const { after } = whereAreYou(file, [{ zone: 'L', depth: 'sheet' }], { asOf: AS_OF });
    const { errors } = computePlan(after, { now: AS_OF });
    expect(errors.map(({ rule, tasks }) => [rule, tasks])).toEqual([
      ['covered-unchecked', ['cable', 'sheet']],
    ]);
  });

  it('should leave open what the builder says is still to do, and all that comes after it', () => {
    const { finished, after } = whereAreYou(wall(), [{ zone: 'L', depth: 'sheet' }], {
      asOf: AS_OF,
      stillToDo: ['cable'],
    });
    expect(finished).toEqual(['primer']);
    expect(computePlan(after, { now: AS_OF }).errors).toEqual([]);
  });

  it('should change nothing where no depth is in, or one that the van has not', () => {
    const file = wall();
    for (const bands of [[], [{ zone: 'X', depth: 'metal' }], [{ zone: 'L', depth: 'roof' }]])
      expect(whereAreYou(file, bands, { asOf: AS_OF })).toEqual({ finished: [], after: file });
  });

  it('should hold a circle of links together', () => {
    const file = wall({ links: [link('sheet', 'cable')] });
    const { finished } = whereAreYou(file, [{ zone: 'L', depth: 'wires' }], { asOf: AS_OF });
    expect(finished.toSorted()).toEqual(['cable', 'primer', 'sheet']);
  });
});

// Helpers

interface Parts {
  readonly links?: readonly object[];
  readonly tasks?: readonly object[];
  /** What is otherwise with a task, by its key. */
  readonly done?: Readonly<Record<string, object>>;
}

/** A wall: primer, cable over it, sheet that hides both, lining; and a drawing that works nowhere. */
function wall({ links = [], tasks = [], done = {} }: Parts = {}) {
  const own = [
    task('primer', 60, { waitMinutes: 2880, places: [{ zone: 'L', depth: 'metal', hides: null }] }),
    task('cable', 60, { places: [{ zone: 'L', depth: 'wires', hides: 'metal' }] }),
    task('sheet', 60, { waitMinutes: 1440, places: [{ zone: 'L', depth: 'sheet', hides: 'wires' }] }),
    task('lining', 60, { places: [{ zone: 'L', depth: 'lining', hides: 'sheet' }] }),
    task('drawing', 60),
  ] as { key: string }[];
  return makeBuild({
    build: { startOn: START, asOf: null },
    depths: DEPTHS,
    zones: ['L', 'F'].map((key) => ({ key, name: key, depths: DEPTHS })),
    tasks: [...own.map((one) => ({ ...one, ...done[one.key] })), ...tasks],
    links,
  });
}
