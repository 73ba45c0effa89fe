/** People who work on several builds: what one has planned for them is taken out of their windows in the next. */
import { describe, expect, it } from 'vitest';
import type { Elsewhere } from '#shared/contract/elsewhere.ts';
import { computePlan } from '#shared/plan.ts';
import { bothBusy, busyOf, takenOf, withElsewhere } from '#shared/time/elsewhere.ts';
import { EVENINGS, link, makeBuild, NOW, task } from '../support/builds.ts';

const tor = { key: 'tor', name: 'Tor', sharedAs: 'tor', week: EVENINGS };

describe('what a build has planned for shared people', () => {
  it('should be their sittings, touching ones as one, under the shared name', () => {
    const file = makeBuild({
      build: { name: 'Wagtail' },
      people: [tor, { key: 'ines', name: 'Ines', week: EVENINGS }],
      tasks: [
        task('x', 60, { who: ['tor'] }),
        task('y', 90, { who: ['tor'] }),
        task('z', 60, { who: ['ines'] }),
      ],
      order: ['x', 'y', 'z'],
    });
    expect(busyOf(file, computePlan(file, { now: NOW }))).toEqual({
      tor: [{ from: '2026-06-02T18:30', to: '2026-06-02T21:00', build: 'Wagtail' }],
    });
  });

  it('should lie side by side for several builds, soonest first', () => {
    const one = { tor: [busy('2026-06-04T18:30', '2026-06-04T19:00', 'One')] };
    const two = { tor: [busy('2026-06-02T18:30', '2026-06-02T19:00', 'Two')], ines: [] };
    expect(bothBusy(one, two)).toEqual({ tor: [two.tor[0], one.tor[0]], ines: [] });
  });
});

describe('the file to plan from', () => {
  it('should keep the unworked rest of a window, to the minute', () => {
    expect(windowsLeft({ tor: [busy('2026-06-06T10:07', '2026-06-06T14:20')] })).toEqual({
      '2026-06-06': ['09:00-10:07', '14:20-17:00'],
    });
  });

  it('should leave a day without a window where all of it is taken', () => {
    expect(windowsLeft({ tor: [busy('2026-06-02T18:30', '2026-06-02T21:00')] })).toEqual({
      '2026-06-02': [],
    });
  });

  it('should split what goes on past midnight', () => {
    const night = { ...tor, week: { mon: ['22:00-24:00'], tue: ['00:00-02:00'] } };
    expect(windowsLeft({ tor: [busy('2026-06-01T23:00', '2026-06-02T01:00')] }, night)).toEqual({
      '2026-06-01': ['22:00-23:00'],
      '2026-06-02': ['01:00-02:00'],
    });
  });

  it('should take from a free day what was free on it, and stand over an exception of that single day', () => {
    const free = {
      ...tor,
      exceptions: [
        { from: '2026-06-02', to: '2026-06-02', windows: ['10:00-22:00'] },
        { from: '2026-06-01', to: '2026-06-07', windows: [] },
      ],
    };
    const file = makeBuild({ people: [free] });
    const planned = withElsewhere(file, { tor: [busy('2026-06-02T12:00', '2026-06-02T13:00')] });
    const [person] = planned.people;
    expect(person!.exceptions.map(({ from, to, windows }) => [from, to, windows])).toEqual([
      ['2026-06-01', '2026-06-07', []],
      ['2026-06-02', '2026-06-02', ['10:00-12:00', '13:00-22:00']],
    ]);
    expect(takenOf(person!)).toEqual([busy('2026-06-02T12:00', '2026-06-02T13:00')]);
  });

  it('should be the file itself where nobody loses a window', () => {
    const file = makeBuild({ people: [tor, { key: 'a', name: 'A', week: EVENINGS }] });
    for (const elsewhere of [
      {},
      { tor: [] },
      { a: [busy('2026-06-02T18:30', '2026-06-02T21:00')] },
      { tor: [busy('2026-06-01T18:30', '2026-06-01T21:00'), busy('2026-06-02T21:00', '2026-06-02T23:00')] },
    ])
      expect(withElsewhere(file, elsewhere)).toBe(file);
  });
});

describe('why a task starts when it does', () => {
  const later = (more: object = {}) =>
    makeBuild({ people: [tor], tasks: [task('x', 60), task('y', 60)], links: [link('x', 'y')], ...more });

  it('should name the other build where its people are there instead', () => {
    const file = withElsewhere(later(), { tor: [busy('2026-06-02T18:30', '2026-06-02T21:00', 'Wagtail')] });
    const { x } = computePlan(file, { now: NOW }).tasks;
    expect(x!.dates!.start).toBe('2026-06-04T18:30');
    expect(x!.because).toEqual({
      kind: 'window',
      task: null,
      key: 'tor',
      words:
        'Tor is at Wagtail until Tue 2 Jun 2026, 21:00; Tor has the next window from Thu 4 Jun 2026, 18:30.',
    });
  });

  it('should still lead on to what came before', () => {
    const file = withElsewhere(later(), { tor: [busy('2026-06-02T19:30', '2026-06-02T21:00', 'Wagtail')] });
    const { y } = computePlan(file, { now: NOW }).tasks;
    expect(y!.because).toMatchObject({ kind: 'window', task: 'x', key: 'tor' });
  });

  it('should not speak of another build whose hours are over before the task could start', () => {
    const file = withElsewhere(later(), { tor: [busy('2026-06-02T18:30', '2026-06-02T19:00', 'Wagtail')] });
    expect(computePlan(file, { now: NOW }).tasks['y']!.because!.words).toMatch(/^It follows “X”/);
  });
});

// Helpers

function busy(from: string, to: string, build = 'Other') {
  return { from, to, build };
}

/** The windows of each day of which something is taken. */
function windowsLeft(elsewhere: Elsewhere, person: object = tor): Record<string, readonly string[]> {
  const [left] = withElsewhere(makeBuild({ people: [person] }), elsewhere).people;
  return Object.fromEntries(left!.exceptions.map(({ from, windows }) => [from, windows]));
}
