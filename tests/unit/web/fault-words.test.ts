/** What is wrong with a change, in the words of the form. */
import { describe, expect, it } from 'vitest';
import { Task } from '#shared/contract/task.ts';
import { faultsOf } from '#shared/contract/faults.ts';
import { fieldName, faultSentence } from '../../../web/src/controls/fault-words.ts';
import { cutLabel, refusedWords } from '../../../web/src/state/refusal-words.ts';
import { makeBuild, task } from '../../support/builds.ts';

const build = makeBuild({ tasks: [task('lamp', 60), task('cord', 60)] });
const lamp = build.tasks[0]!;
const edit = { noun: 'tasks', id: 'lamp', value: { ...lamp } } as const;

describe('a field', () => {
  it('should be called as the form calls it', () => {
    expect(fieldName('tasks', ['minutes', 'low'])).toBe('Hours, low');
    expect(fieldName('tasks', ['holdPoints', '1', 'expect'])).toBe('Check 2, what it should read');
    expect(fieldName('people', ['rate'])).toBe('Paid by the hour');
    expect(fieldName('people', ['week', 'wed', '0'])).toBe('Week, Wednesday 1');
    expect(fieldName('purchases', ['lines', '0', 'unitPrice'])).toBe('Line 1, price of one');
    expect(fieldName('baselines', ['tasks'])).toBe('Frozen tasks');
  });
});

describe('a fault', () => {
  it('should say what cannot be read without a word of numbers that are none', () => {
    const value = { ...lamp, minutes: { low: 60, likely: NaN, high: 90 } };
    const [fault] = faultsOf(Task, value);
    const sentence = faultSentence(fault!, [{ ...edit, value }], build);
    expect(sentence).toMatch(/^Hours, likely cannot be read as it is typed: it must be /);
  });

  it('should say which record of the build it spoils', () => {
    const fault = { pointer: '/tasks/1/phase', detail: 'names no phase' };
    const gone = { noun: 'phases', id: 'p', value: null } as const;
    expect(faultSentence(fault, [gone], build)).toBe(`Task “${build.tasks[1]!.name}”: Phase names no phase.`);
  });

  it('should read the pointers of the server', () => {
    const fault = { pointer: '/edits/0/value/minutes/high', detail: 'is less than likely' };
    expect(faultSentence(fault, [edit], build)).toBe('Hours, high is less than likely.');
    const two = [edit, { noun: 'tasks', id: 'cord', value: { ...build.tasks[1]! } } as const];
    expect(faultSentence({ pointer: '/edits/1/value/name', detail: 'is blank' }, two, build)).toBe(
      `Task “${build.tasks[1]!.name}”: Name is blank.`,
    );
    expect(
      faultSentence(
        { pointer: '/tasks/cord/phase', detail: 'names no phase' },
        [{ noun: 'phases', id: 'p', value: null }],
        build,
      ),
    ).toBe(`Task “${build.tasks[1]!.name}”: Phase names no phase.`);
  });

  it('should speak of the whole where no field is meant', () => {
    expect(faultSentence({ pointer: '', detail: 'is not right' }, [edit], build)).toBe('It is not right.');
  });
});

describe('a label', () => {
  it('should fit into the history', () => {
    expect(cutLabel('Change Rib fill')).toBe('Change Rib fill');
    expect(cutLabel('Two\nlines ')).toBe('Two lines');
    const long = cutLabel(`Change ${'🔩'.repeat(150)}`);
    expect(long.length).toBeLessThanOrEqual(200);
    expect(long).toMatch(/^Change 🔩+…$/u);
  });

  it('should name the change that was not stored', () => {
    expect(
      refusedWords('Put off “Which probe?”', { code: 'stale-write', message: 'The decision "probe" …' }),
    ).toBe('Not saved: Put off “Which probe?”. It was changed elsewhere meanwhile.');
    expect(refusedWords('Sign the check', { code: 'bad-change', message: 'By names nobody.' })).toBe(
      'Not saved: Sign the check. By names nobody.',
    );
  });
});
