import { describe, expect, it } from 'vitest';
import type { Task } from '#shared/contract/task.ts';
import { makeBuild, task } from '../../support/builds.ts';
import { newTask, placeBehind, USUAL_MINUTES } from '../../../web/src/views/task/new-task.ts';
import { similarTask } from '../../../web/src/views/task/similar.ts';

const build = makeBuild({
  depths: ['metal', 'services', 'fill', 'film'],
  zones: [
    { key: 'L2', name: 'left wall', depths: ['metal', 'services', 'fill', 'film'] },
    { key: 'R2', name: 'right wall', depths: ['metal', 'services', 'fill', 'film'] },
  ],
  phases: [{ key: 'electrics', name: 'Electrics' }],
  tasks: [
    task('socket', 90, {
      name: 'Socket cables to the kitchen',
      phase: 'electrics',
      kinds: ['cable'],
      places: [{ zone: 'L2', depth: 'services' }],
    }),
    task('hose', 60, { name: 'Water hose to the sink', places: [{ zone: 'R2', depth: 'services' }] }),
    task('fill', 300, { name: 'Rib fill', places: [{ zone: 'L2', depth: 'fill', hides: 'services' }] }),
    task('paint', 120, { name: 'Paint the floor' }),
  ],
});

describe('the task most like a new one', () => {
  it('should be the one that shares its rarer words, in singular or plural', () => {
    expect(
      similarTask(build.tasks, { name: 'Cable for the reading lamp', zone: null, depth: null })?.key,
    ).toBe('socket');
    expect(similarTask(build.tasks, { name: 'HOSES at the rear', zone: null, depth: null })?.key).toBe(
      'hose',
    );
  });

  it('should go by zone and depth where the words say nothing', () => {
    expect(similarTask(build.tasks, { name: '防水', zone: 'L2', depth: 'services' })?.key).toBe('socket');
  });

  it('should be none when nothing is alike', () => {
    expect(similarTask(build.tasks, { name: 'Weigh the van', zone: null, depth: null })).toBeNull();
    expect(similarTask([], { name: 'Cable', zone: null, depth: null })).toBeNull();
  });

  it('should not depend on the order of the tasks', () => {
    const asked = { name: 'to the', zone: 'L2', depth: null };
    expect(similarTask(build.tasks.toReversed(), asked)?.key).toBe(similarTask(build.tasks, asked)?.key);
  });
});

describe('a new task', () => {
  it('should take phase, hours and kinds from a similar one, but not its places or state', () => {
    const like = build.tasks.find(({ key }) => key === 'socket') as Task;
    const made = newTask(build, { name: ' Lamp cable ', places: [], like });
    expect(made).toMatchObject({
      key: 'lamp-cable',
      name: 'Lamp cable',
      phase: 'electrics',
      kinds: ['cable'],
      minutes: like.minutes,
      places: [],
      state: 'not-started',
    });
  });

  it('should take the wait, the checks and the steps along, with nothing of what was done', () => {
    const signed = { at: '2026-06-01T10:00', by: 'a', pass: true, reading: null, photo: null };
    const like: Task = {
      ...(build.tasks.find(({ key }) => key === 'socket') as Task),
      waitMinutes: 720,
      steps: [{ text: 'Crimp', done: true }],
      holdPoints: [
        { key: 'pull', kind: 'pull', when: 'exit', name: 'Pull', expect: '30 N', attempts: [signed] },
      ],
    };
    expect(newTask(build, { name: 'Lamp cable', places: [], like })).toMatchObject({
      waitMinutes: 720,
      steps: [{ text: 'Crimp', done: false }],
      holdPoints: [{ key: 'pull', name: 'Pull', expect: '30 N', attempts: [] }],
    });
  });

  it('should have the usual hours without one', () => {
    expect(newTask(build, { name: 'Anything', places: [], like: null }).minutes).toEqual(USUAL_MINUTES);
  });

  it('should lie at the furthest depth its cover hides', () => {
    const fill = build.tasks.find(({ key }) => key === 'fill') as Task;
    const [zone] = build.zones;
    expect(placeBehind(fill, 'L2', zone!.depths)).toEqual({ zone: 'L2', depth: 'services', hides: null });
    expect(placeBehind(fill, 'R2', zone!.depths)).toBeNull();
  });
});
