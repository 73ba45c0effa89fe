import { describe, expect, it } from 'vitest';
import { numbered } from '#shared/changes/free-key.ts';
import { KEY_PATTERN } from '#shared/contract/common.ts';
import { freeKey, slug } from '../../../web/src/views/task/task-key.ts';

const NAMES = [
  'Rib fill, left wall',
  'Вклейка окна',
  '防水テスト',
  '  --  ',
  'Größe prüfen',
  'Łazienka',
  '9 bolts',
  'عزل',
  'x'.repeat(200),
];

describe('key of a new task', () => {
  it('should read like its name', () => {
    expect(slug('Rib fill, left wall')).toBe('rib-fill-left-wall');
    expect(slug('Größe prüfen')).toBe('grosse-prufen');
  });

  it('should be a key the build takes, for a name in any script', () => {
    for (const name of NAMES) expect(freeKey(name, new Set(), 'task')).toMatch(new RegExp(KEY_PATTERN));
  });

  it('should be numbered when it is taken', () => {
    expect(freeKey('Rib fill', new Set(['rib-fill', 'rib-fill-2']), 'task')).toBe('rib-fill-3');
    expect(freeKey('防水テスト', new Set(['task']), 'task')).toBe('task-2');
  });

  it('should stay within 80 letters with its number', () => {
    const long = 'k'.repeat(80);
    expect(numbered(long, new Set([long.slice(0, 72)]))).toMatch(new RegExp(KEY_PATTERN));
  });
});
