import { describe, expect, it } from 'vitest';
import { renameZone } from '#shared/changes/rename-zone.ts';
import { readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { wagtail } from '#shared/demo/wagtail.ts';

describe('a zone under another code', () => {
  it('should be named anew wherever the build names it, and the build stay right', () => {
    const before = readBuild(wagtail());
    const after = renameZone(before, 'L2', 'LM');
    expect(readBuild(after)).toEqual(after);
    expect(JSON.stringify([after.zones, after.zoneGroups, after.tasks, after.records])).not.toContain('"L2"');
    const now = '2027-03-09T19:00';
    expect(computePlan(after, { now }).finish).toEqual(computePlan(before, { now }).finish);
  });

  it('should leave tasks of other zones alone', () => {
    const before = readBuild(wagtail());
    const after = renameZone(before, 'L2', 'LM');
    const other = before.tasks.findIndex(({ places }) => places.every(({ zone }) => zone !== 'L2'));
    expect(after.tasks[other]).toBe(before.tasks[other]);
  });
});
