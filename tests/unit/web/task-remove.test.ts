import { describe, expect, it } from 'vitest';
import { goesAlong, withoutTask } from '#shared/changes/remove-task.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import { link, makeBuild, task } from '../../support/builds.ts';
import { copyTask } from '../../../web/src/views/task/copy-task.ts';

const zone = (key: string, depths: string[]) => ({ key, name: `zone ${key}`, depths });
const build = makeBuild({
  depths: ['metal', 'opening', 'services', 'fill'],
  zones: [
    zone('L1', ['metal', 'services', 'fill']),
    zone('L2', ['metal', 'opening', 'services', 'fill']),
    zone('K', ['services']),
  ],
  phases: [{ key: 'electrics', name: 'Electrics' }],
  tasks: [
    task('cable', 60, {
      phase: 'electrics',
      places: [
        { zone: 'L2', depth: 'opening', hides: 'metal' },
        { zone: 'L2', depth: 'services' },
      ],
      state: 'started',
      startedAt: '2026-06-01T00:00',
      steps: [{ text: 'pull', done: true }],
      holdPoints: [
        { key: 'c', name: 'continuity', attempts: [{ at: '2026-06-01T00:00', by: 'a', pass: true }] },
      ],
    }),
    task('fill', 60, { places: [{ zone: 'L2', depth: 'fill', hides: 'services' }] }),
    task('test', 60),
  ],
  links: [link('cable', 'test'), link('test', 'fill'), link('fill', 'cable', { kind: 'SS' })],
  exceptions: [{ inner: 'cable', cover: 'fill', reason: 'a hatch' }],
  order: ['cable', 'test'],
  purchases: [
    { key: 'reel', lines: [{ key: 'l1', name: 'reel', quantity: 1, neededBy: ['cable', 'test'] }] },
  ],
  decisions: [{ key: 'd', question: 'Which?', locksTasks: ['cable'] }],
  hours: [{ key: 'h1', task: 'cable', person: 'a', on: '2026-06-01', minutes: 90 }],
  timers: [{ key: 't1', task: 'cable', person: 'a', startedAt: '2026-06-01T00:00' }],
});

describe('removing a task', () => {
  it('should say what goes along', () => {
    expect(goesAlong(build, 'cable')).toMatchObject({
      links: 2,
      exceptions: 1,
      lines: 1,
      decisions: 1,
      records: 0,
      inOrder: true,
    });
    expect(goesAlong(build, 'cable').hours).toHaveLength(1);
  });

  it('should leave nothing that points at it', () => {
    const after = withoutTask(build, 'cable');
    expect(after.tasks.map(({ key }) => key)).toEqual(['fill', 'test']);
    expect(after.links).toHaveLength(1);
    expect(after.exceptions).toEqual([]);
    expect(after.order).toEqual(['test']);
    expect(after.purchases[0]!.lines[0]!.neededBy).toEqual(['test']);
    expect(referenceFaults(after)).toEqual([]);
  });

  it('should never lose a worked hour: it moves to the phase', () => {
    expect(withoutTask(build, 'cable').hours).toEqual([
      { key: 'h1', task: null, phase: 'electrics', person: 'a', on: '2026-06-01', minutes: 90, note: '' },
    ]);
  });

  it('should leave the build it was given alone', () => {
    const before = JSON.stringify(build);
    withoutTask(build, 'cable');
    expect(JSON.stringify(build)).toBe(before);
  });
});

describe('copying a task to another zone', () => {
  const cable = build.tasks[0]!;

  it('should start anew: nothing begun, ticked or signed', () => {
    const { file, key } = copyTask(build, cable, { from: null, to: 'L1', withLinks: false });
    const copy = file.tasks.find((one) => one.key === key)!;
    expect(copy).toMatchObject({ state: 'not-started', startedAt: null, name: 'CABLE, zone L1' });
    expect(copy.steps[0]!.done).toBe(false);
    expect(copy.holdPoints[0]!.attempts).toEqual([]);
    expect(referenceFaults(file)).toEqual([]);
  });

  it('should fall back on the nearest depth behind where the zone lacks one, each depth once', () => {
    const { file, key } = copyTask(build, cable, { from: null, to: 'L1', withLinks: false });
    expect(file.tasks.find((one) => one.key === key)!.places).toEqual([
      { zone: 'L1', depth: 'metal', hides: 'metal' },
      { zone: 'L1', depth: 'services', hides: null },
    ]);
  });

  it('should keep no place where the zone has none of its depths', () => {
    const fill = build.tasks[1]!;
    const { file, key } = copyTask(
      build,
      { ...fill, places: [{ zone: 'L2', depth: 'metal', hides: null }] },
      { from: null, to: 'K', withLinks: false },
    );
    expect(file.tasks.find((one) => one.key === key)!.places).toEqual([]);
  });

  it('should copy its links with it when asked, and have a key of its own every time', () => {
    const once = copyTask(build, cable, { from: null, to: 'L1', withLinks: true });
    expect(once.file.links).toHaveLength(5);
    const twice = copyTask(once.file, cable, { from: null, to: 'L1', withLinks: true });
    expect(twice.key).not.toBe(once.key);
    expect(referenceFaults(twice.file)).toEqual([]);
  });
});
