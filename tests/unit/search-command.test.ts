/** Plain projects from files, as the command reads and answers them. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { PlanError, type Failure } from '#shared/errors.ts';
import { readProjects } from '#shared/search/read-projects.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = mkdtempSync(join(tmpdir(), 'coverlast-rcpsp-'));
afterAll(() => rmSync(FOLDER, { recursive: true }));

/** In the layout of a PSPLIB file; the project is our own. */
const TEXT = `************************************************************************
file with basedata            : shed.bas
initial value random generator: 1
************************************************************************
projects                      :  1
jobs (incl. supersource/sink ):  5
horizon                       :  9
RESOURCES
  - renewable                 :  2   R
  - nonrenewable              :  0   N
  - doubly constrained        :  0   D
************************************************************************
PROJECT INFORMATION:
pronr.  #jobs rel.date duedate tardcost  MPM-Time
    1      3      0        9        0        5
************************************************************************
PRECEDENCE RELATIONS:
jobnr.    #modes  #successors   successors
   1        1          2           2   4
   2        1          1           3
   3        1          1           5
   4        1          1           5
   5        1          0
************************************************************************
REQUESTS/DURATIONS:
jobnr. mode duration  R 1  R 2
------------------------------------------------------------------------
  1      1     0       0    0
  2      1     2       2    0
  3      1     3       1    1
  4      1     4       1    0
  5      1     0       0    0
************************************************************************
RESOURCEAVAILABILITIES:
  R 1  R 2
    2    1
************************************************************************
`;

const SHED = {
  resources: [2, 1],
  activities: [
    { d: 0, r: [0, 0], succ: [1, 3] },
    { d: 2, r: [2, 0], succ: [2] },
    { d: 3, r: [1, 1], succ: [4] },
    { d: 4, r: [1, 0], succ: [4] },
    { d: 0, r: [0, 0], succ: [] },
  ],
};

describe('a plain project', () => {
  it('should be the same from a PSPLIB file and from JSON', () => {
    const [fromText] = readProjects(TEXT);
    const [fromJson] = readProjects(JSON.stringify({ name: 'shed.bas', ...SHED }));
    expect(fromText).toEqual(fromJson);
  });

  it('should be read with the line ends of any system', () => {
    expect(readProjects(TEXT.replaceAll('\n', '\r\n'))).toEqual(readProjects(TEXT));
  });

  it('should be named by its place where it has no name', () => {
    expect(readProjects(JSON.stringify([SHED, SHED])).map(({ name }) => name)).toEqual([
      'project 1',
      'project 2',
    ]);
  });

  it.each([
    ['a duration that is not whole', '/activities/1/d', change(1, { d: 1.5 })],
    ['a demand above the capacity', '/activities/2/r/1', change(2, { r: [1, 2] })],
    ['a demand too few', '/activities/2/r', change(2, { r: [1] })],
    ['a successor that is not there', '/activities/3/succ/0', change(3, { succ: [5] })],
    ['a circle', '/activities', change(2, { succ: [1] })],
    ['durations beyond all bounds', '/activities', change(1, { d: 4_194_304 })],
    ['no activities', '/activities', { resources: [] }],
    ['no resources', '/resources', { activities: [] }],
  ])('should not have %s', (_, at, wrong) => {
    const failure = failureOf(JSON.stringify(wrong));
    expect(failure).toMatchObject({ code: 'bad-request', errors: [{ pointer: at }] });
  });

  it('should say which project of a list is wrong', () => {
    const failure = failureOf(JSON.stringify([SHED, change(1, { d: -1 })]));
    expect(failure).toMatchObject({ errors: [{ pointer: '/1/activities/1/d' }] });
  });

  it.each([
    [
      'several modes',
      TEXT.replace('   2        1          1', '   2        3          1'),
      'job 2 has 3 modes',
    ],
    ['a section too few', TEXT.replace('REQUESTS/DURATIONS:', ''), 'REQUESTS/DURATIONS is missing'],
    ['a job too few', TEXT.replace('  5      1     0       0    0\n', ''), '5 jobs have successors and 4'],
    ['a successor too few', TEXT.replace('2   4\n', '2\n'), 'job 1 has 1 successors, not 2'],
    [
      'resources that are used up',
      TEXT.replace('nonrenewable              :  0', 'nonrenewable : 2'),
      'used up',
    ],
    ['a job out of place', TEXT.replace('  3      1     3', '  4      1     3'), 'job 3 is not where'],
  ])('should not come from a PSPLIB file with %s', (_, text, words) => {
    expect(failureOf(text)).toMatchObject({
      code: 'bad-request',
      errors: [{ detail: expect.stringContaining(words) as unknown }],
    });
  });

  it.each(['', '[1, 2', 'hello'])('should not come from %j', (text) => {
    expect(failureOf(text)).toMatchObject({ code: 'not-json' });
  });

  it.each(['[]', '7', 'null'])('should not be %s', (text) => {
    expect(failureOf(text)).toMatchObject({ code: 'bad-request' });
  });
});

describe('rcpsp', () => {
  it('should print the schedule of a PSPLIB file, and nothing else', () => {
    const { status, stdout, stderr } = run(saved('shed.sm', TEXT));
    expect([status, stderr]).toEqual([0, '']);
    expect(JSON.parse(stdout)).toMatchObject({
      instances: [
        {
          name: 'shed.bas',
          makespan: 6,
          starts: [0, 0, 2, 2, 6],
          bounds: { criticalPath: 5, best: 6 },
          proven: true,
          schedules: 1,
        },
      ],
      deviationFromBest: null,
      schedulesUsed: 1,
    });
  });

  it('should compare a list of projects with their best known', () => {
    const path = saved(
      'two.json',
      JSON.stringify([
        { ...SHED, best: 6 },
        { ...SHED, best: 5 },
      ]),
    );
    const { stdout } = run(path, '--schedules', '20', '--seed', '3');
    expect(JSON.parse(stdout)).toMatchObject({ deviationFromBest: 10, deviationFromCpm: 20 });
  });

  it('should end with a problem object and a sentence on bad input', () => {
    const { status, stdout, stderr } = run(saved('bad.json', JSON.stringify(change(1, { d: -1 }))));
    expect(status).toBe(1);
    expect(JSON.parse(stdout)).toMatchObject({
      type: '/problems/bad-request',
      errors: [{ pointer: '/activities/1/d' }],
    });
    expect(stderr).toContain('/activities/1/d must be a whole number');
  });

  it.each(['', 'a b', 'a --seed x', 'a --schedules 0', 'a --what 1'])(
    'should say how it is called when called with "%s"',
    (words) => {
      const { status, stderr } = run(...words.split(' ').filter((word) => word !== ''));
      expect(status).toBe(1);
      expect(stderr).toContain('npm run --silent rcpsp -- FILE');
    },
  );
});

// Helpers

/** The shed with one activity changed. */
function change(v: number, fields: object): unknown {
  return { ...SHED, activities: SHED.activities.map((one, i) => (i === v ? { ...one, ...fields } : one)) };
}

function failureOf(text: string): Failure {
  try {
    readProjects(text);
  } catch (error) {
    if (error instanceof PlanError) return error.failure;
    throw error;
  }
  throw new Error('it was read without complaint');
}

function saved(name: string, text: string): string {
  const path = join(FOLDER, name);
  writeFileSync(path, text);
  return path;
}

function run(...words: string[]) {
  return spawnSync('npm', ['run', '--silent', 'rcpsp', '--', ...words], { cwd: ROOT, encoding: 'utf8' });
}
