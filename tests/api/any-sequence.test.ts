/**
 * Any sequence of edits, undo and redo against a model that knows nothing of rows, versions or journals: a list of
 * whole builds and a finger on one of them. What a client makes of the answers must be the same build again.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Changed, Edit } from '#shared/contract/changes.ts';
import { idOf, type AnyRecord, type NounName } from '#shared/contract/nouns.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import { withRows } from '#shared/changes/apply.ts';
import { document, task } from '../support/builds.ts';
import { startServer, type Snapshot, type TestServer } from '../support/server.ts';

type Step =
  | { readonly kind: 'undo' }
  | { readonly kind: 'redo' }
  | { readonly kind: 'restart' }
  | { readonly kind: 'rename-build'; readonly name: string }
  | { readonly kind: 'put'; readonly noun: NounName; readonly record: AnyRecord; readonly at: number | null }
  | { readonly kind: 'drop'; readonly noun: NounName; readonly id: string };

const key = fc.constantFrom('a', 'b', 'c', 'constructor');
const name = fc.constantFrom('One', 'Two', 'Three');
const at = fc.option(fc.nat(4), { nil: null });
const whole = (key: string, name: string, phase: string | null) =>
  ({ ...TASK, key, name, phase }) as unknown as AnyRecord;

const put = (noun: NounName, record: fc.Arbitrary<AnyRecord>): fc.Arbitrary<Step> =>
  fc.record({ kind: fc.constant('put' as const), noun: fc.constant(noun), record, at });
const drop = (noun: NounName, id: fc.Arbitrary<string>): fc.Arbitrary<Step> =>
  fc.record({ kind: fc.constant('drop' as const), noun: fc.constant(noun), id });
const pair = fc
  .tuple(key, key)
  .map(
    ([from, to]) =>
      ({ from, to, kind: 'FS', lagMinutes: 0, lagOn: 'clock', reason: '', why: null }) as AnyRecord,
  );

const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 4, arbitrary: fc.record({ kind: fc.constant('undo' as const) }) },
  { weight: 3, arbitrary: fc.record({ kind: fc.constant('redo' as const) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('restart' as const) }) },
  { weight: 1, arbitrary: fc.record({ kind: fc.constant('rename-build' as const), name }) },
  { weight: 3, arbitrary: put('phases', fc.record({ key, name, budget: fc.nat(9) })) },
  {
    weight: 3,
    arbitrary: put(
      'tasks',
      fc.tuple(key, name, fc.option(key, { nil: null })).map((parts) => whole(...parts)),
    ),
  },
  { weight: 2, arbitrary: put('links', pair) },
  { weight: 2, arbitrary: drop('phases', key) },
  { weight: 2, arbitrary: drop('tasks', key) },
  {
    weight: 1,
    arbitrary: drop(
      'links',
      pair.map((link) => idOf('links', link)!),
    ),
  },
);

describe('a build', () => {
  it(
    'should always be what its edits, undos and redos make of it, for the server and for a client that listens',
    { timeout: 240_000 },
    async () => {
      await fc.assert(
        fc.asyncProperty(fc.array(step, { minLength: 5, maxLength: 30 }), async (steps) => {
          let server = await startServer({
            builds: [document({ tasks: [task('a', 60)], phases: [{ key: 'a', name: 'One' }] })],
          });
          const states = [(await server.snapshot('test')).file];
          let [finger, client, revision] = [0, states[0]!, 1];
          for (const step of steps) {
            if (step.kind === 'restart') {
              await server.close();
              server = await startServer({ folder: server.folder });
            } else {
              const now = states[finger]!;
              const next = expectedOf(step, now, states, finger);
              const { status, body } = await send(server, step, await server.snapshot('test'));
              expect(status, JSON.stringify(step)).toBe(next === null ? REFUSED[step.kind] : 200);
              if (next !== null) {
                if (step.kind === 'undo') finger--;
                else if (step.kind === 'redo') finger++;
                else states.splice(++finger, Infinity, next);
                client = withRows(client, (body as unknown as Changed).rows);
                revision++;
              }
            }
            const snapshot = await server.snapshot('test');
            expect(snapshot.file).toEqual(states[finger]);
            expect(client).toEqual(states[finger]);
            expect(snapshot.revision).toBe(revision);
            expect([snapshot.canUndo !== null, snapshot.canRedo !== null]).toEqual([
              finger > 0,
              finger < states.length - 1,
            ]);
          }
          await server.close();
        }),
        { numRuns: Number(process.env['FC_RUNS'] ?? 20) },
      );
    },
  );
});

// Helpers

const TASK = {
  key: '',
  name: '',
  phase: null,
  kinds: [],
  minutes: { low: 60, likely: 60, high: 60 },
  people: 1,
  who: [],
  tools: [],
  shortestSitting: 0,
  waitMinutes: 0,
  waitConditions: [],
  waitHoldsZones: false,
  conditions: [],
  places: [],
  reopenMinutes: null,
  steps: [],
  holdPoints: [],
  state: 'not-started',
  startedAt: null,
  finishedAt: null,
  hoursKnown: true,
  remainingMinutes: null,
  fixedStart: null,
  fixedWhy: null,
  cautions: [],
  option: null,
  note: '',
};

const REFUSED: Record<Step['kind'], number> = {
  undo: 409,
  redo: 409,
  put: 422,
  drop: 422,
  'rename-build': 422,
  restart: 0,
};

/** The build after a step, by plain lists; null where it is refused. */
function expectedOf(
  step: Step,
  now: BuildFile,
  states: readonly BuildFile[],
  finger: number,
): BuildFile | null {
  if (step.kind === 'undo') return states[finger - 1] ?? null;
  if (step.kind === 'redo') return states[finger + 1] ?? null;
  if (step.kind === 'restart') return now;
  if (step.kind === 'rename-build') return { ...now, build: { ...now.build, name: step.name } };
  const list: AnyRecord[] = [...now[step.noun]];
  const id = step.kind === 'put' ? idOf(step.noun, step.record) : step.id;
  const index = list.findIndex((record) => idOf(step.noun, record) === id);
  if (step.kind === 'drop') {
    if (index === -1) return null;
    list.splice(index, 1);
  } else if (step.at === null && index !== -1) list[index] = step.record;
  else {
    if (index !== -1) list.splice(index, 1);
    list.splice(step.at ?? list.length, 0, step.record);
  }
  const next = { ...now, [step.noun]: list } as BuildFile;
  return referenceFaults(next).length === 0 ? next : null;
}

async function send(
  server: TestServer,
  step: Exclude<Step, { kind: 'restart' }>,
  { file, versions }: Snapshot,
) {
  const url = '/api/builds/test';
  const version = (noun: string, id: string) =>
    Object.hasOwn(versions[noun]!, id) ? versions[noun]![id]! : null;
  const change = async (edit: Edit) => {
    const answer = await server.ask('POST', `${url}/changes`, { body: { label: step.kind, edits: [edit] } });
    // That a record to drop is not there is told apart from that it may not go.
    return answer.status === 404 ? { ...answer, status: 422 } : answer;
  };
  switch (step.kind) {
    case 'undo':
    case 'redo':
      return server.ask('POST', `${url}/${step.kind}`);
    case 'rename-build':
      return change({
        noun: 'build',
        id: 'build',
        version: version('build', 'build'),
        value: { ...file.build, name: step.name, order: file.order },
      });
    case 'drop':
      return change({ noun: step.noun, id: step.id, version: version(step.noun, step.id), value: null });
    case 'put': {
      const id = idOf(step.noun, step.record)!;
      const place = step.at === null ? {} : { at: step.at };
      return change({
        noun: step.noun,
        id,
        version: version(step.noun, id),
        value: step.record as Edit['value'],
        ...place,
      });
    }
  }
}
