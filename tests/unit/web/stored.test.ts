/** A change whose answer was lost: the history tells whether it was stored. */
import { describe, expect, it } from 'vitest';
import type { HistoryEntry } from '#shared/contract/changes.ts';
import { storedAs, versionLeft } from '../../../web/src/state/stored.ts';

const LAMP = { noun: 'tasks', id: 'lamp' } as const;
const sent = {
  label: 'Name the lamp',
  edits: [{ ...LAMP, version: 3, value: { key: 'lamp', name: 'Lamp' } }],
};

describe('a change whose answer was lost', () => {
  it('should be found by its words and its rows, whatever the order of their fields', () => {
    const found = entry(7, 'Name the lamp', { name: 'Lamp', key: 'lamp' });
    expect(storedAs(sent, 6, [entry(8, 'Something else', {}), found])).toBe(found);
  });

  it('should not be taken for one that was stored before it was sent, nor for another', () => {
    const same = entry(6, 'Name the lamp', { key: 'lamp', name: 'Lamp' });
    expect(storedAs(sent, 6, [same])).toBeNull();
    expect(storedAs(sent, 5, [entry(6, 'Name the lamp', { key: 'lamp', name: 'Lamps' })])).toBeNull();
    expect(storedAs(sent, 5, [entry(6, 'Call the lamp', { key: 'lamp', name: 'Lamp' })])).toBeNull();
    expect(storedAs(sent, 5, [{ ...same, kind: 'redo' }])).toBeNull();
    expect(storedAs(sent, 5, [])).toBeNull();
  });

  it('should leave its rows with the version they had before others changed them again', () => {
    const own = entry(7, 'Name the lamp', {});
    const later = [
      entry(10, 'Beyond what was read', {}),
      entry(9, 'Again', {}),
      entry(8, 'Once more', {}),
      own,
    ];
    expect(versionLeft(own, LAMP, 6, 9, later)).toBe(4);
    expect(versionLeft(own, LAMP, 4, 7, [own])).toBe(4);
  });
});

// Helpers

function entry(revision: number, label: string, after: Record<string, unknown>): HistoryEntry {
  const rows = [{ ...LAMP, before: null, after }];
  return { action: revision, revision, at: '', who: 'builder', label, kind: 'do', state: 'done', rows };
}
