/** A fault's detail in the words of a form. */
import { describe, expect, it } from 'vitest';
import { BuildHead } from '#shared/contract/build.ts';
import { Person } from '#shared/contract/calendar.ts';
import { faultsOf } from '#shared/contract/faults.ts';
import { Weighing } from '#shared/contract/log.ts';
import { Task, Place } from '#shared/contract/task.ts';
import { Zone } from '#shared/contract/shell.ts';
import { plainFault } from '../../../web/src/controls/plain-fault.ts';
import { newZone } from '../../../web/src/views/settings/new-zone.ts';
import { makeBuild, task } from '../../support/builds.ts';

const said = (schema: Parameters<typeof faultsOf>[0], value: object, at: string) =>
  plainFault(faultsOf(schema, value).find(({ pointer }) => pointer === at)!.detail);

describe('a detail in plain words', () => {
  it('should speak of hours, amounts and kilograms as they are typed', () => {
    const one = makeBuild({ tasks: [task('lamp', 60)] }).tasks[0]!;
    expect(said(Task, { ...one, waitMinutes: 600_000 }, '/waitMinutes')).toBe(
      'must be a time such as 3 h 15, from 0 to a year',
    );
    expect(said(Task, { ...one, people: 0 }, '/people')).toBe('is 0: it must be a whole number from 1 to 50');
    expect(said(Task, { ...one, name: '' }, '/name')).toBe('is empty');
    expect(said(Person, { rate: -1 }, '/rate')).toBe('must be an amount, 0 or more');
    expect(said(Weighing, { front: NaN }, '/front')).toBe(
      'cannot be read as it is typed: it must be a mass from 0 to 100 000 kg',
    );
    expect(plainFault('540 is more than likely (120): it must be 120 or less')).toBe(
      'is more than the likely: it must be 2 h or less',
    );
    expect(plainFault('is 1250, more than the unit price: it must be 1000 or less')).toBe(
      'is more than the unit price',
    );
  });

  it('should say days and times in words, and empty instead of null', () => {
    expect(
      plainFault(
        '2026-01-01T10:00 is before the task started on 2027-03-01T00:00: it must be 2027-03-01T00:00 or later',
      ),
    ).toBe(
      'Thu 1 Jan 2026, 10:00 is before the task started on Mon 1 Mar 2027, 00:00: it must be Mon 1 Mar 2027, 00:00 or later',
    );
    expect(said(BuildHead, { startOn: '' }, '/startOn')).toBe('is empty: it must be a day of the calendar');
    expect(said(Zone, { bay: 99 }, '/bay')).toBe('is 99: it must be a whole number from 1 to 50, or empty');
    expect(said(Place, { zone: '' }, '/zone')).toBe('is not chosen yet');
    expect(plainFault('2027-99-99 is before all')).not.toMatch(/undefined|NaN/);
  });
});

describe('a new zone', () => {
  const like = { key: 'L1', name: 'left', face: 'left', bay: 1, capacity: 1, depths: ['a', 'b'] } as const;
  const build = {
    zones: [{ ...like, depths: [...like.depths] }],
    depths: ['a', 'b'].map((key) => ({ key, name: key, hatch: 'plain' as const })),
  };

  it('should be like its neighbours where its code says so', () => {
    expect(newZone(build, 'L2 left wall')).toMatchObject({
      key: 'L2',
      name: 'left wall',
      face: 'left',
      bay: 2,
      depths: ['a', 'b'],
    });
  });

  it('should not be taken for a neighbour by the first letter of its name', () => {
    expect(newZone(build, 'Loft')).toMatchObject({
      key: 'Z1',
      name: 'Loft',
      face: 'elsewhere',
      bay: null,
      depths: ['a'],
    });
    expect(newZone(build, 'Attic')).toMatchObject({ key: 'A1', depths: ['a'] });
  });
});
