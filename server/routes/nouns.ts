/**
 * /api/builds/{build}/{noun}: list, get, create, change, replace and remove the records of every noun, each through the
 * journal. A row is changed only by whoever says which version they read (`If-Match`).
 */
import { Type } from 'typebox';
import type { FastifyPluginCallback, FastifyReply, FastifyRequest } from 'fastify';
import type { Edit } from '#shared/contract/changes.ts';
import { idOf, NOUN_NAMES, NOUNS, type NounName } from '#shared/contract/nouns.ts';
import { PlanError } from '#shared/errors.ts';
import { getBuild } from '../store/builds.ts';
import { change } from '../store/journal.ts';
import { getRow, listIds, listRows, type StoredRow } from '../store/rows.ts';
import { actorOf, sourceOf } from '../plugins/store.ts';
import { IF_MATCH, pathOf, versionIn } from './parameters.ts';
import { NO_CONTENT, PROBLEM_RESPONSES } from './problem-schema.ts';
import { inputSchemas, labelOf, merged, ofOneRecord, readRecord, refused } from './record.ts';

interface Params {
  readonly build: string;
  readonly id: string;
}
type NounRequest = FastifyRequest<{ Params: Params; Body: unknown }>;
type Route = { Params: Params; Body: unknown };

const nouns: FastifyPluginCallback = (app, _options, done) => {
  for (const noun of NOUN_NAMES) nounRoutes(noun);
  done();

  function nounRoutes(noun: NounName): void {
    const { one, schema } = NOUNS[noun];
    const list = `/:build/${addressOf(noun)}`;
    const tags = [NAMES[noun]];
    const record = Type.Object(
      { id: Type.String(), version: Type.Integer(), value: schema },
      { additionalProperties: false },
    );
    const { whole, part } = inputSchemas(noun);

    app.get<Route>(
      list,
      {
        schema: {
          tags,
          summary: `Every ${one} of the build, in the order of the list`,
          params: pathOf('build'),
          response: { 200: Type.Array(record), ...PROBLEM_RESPONSES },
        },
      },
      (request) => {
        const { id } = getBuild(app.store.db, request.params.build);
        return listRows(app.store.db, id, noun).map(onWire);
      },
    );

    app.post<Route>(
      list,
      {
        schema: {
          tags,
          summary: `A new ${one}`,
          params: pathOf('build'),
          body: whole,
          response: { 201: record, ...PROBLEM_RESPONSES },
        },
      },
      (request, reply) => {
        const { id: build } = getBuild(app.store.db, request.params.build);
        const sent = readRecord(noun, request.body);
        const value = idOf(noun, sent) === null ? { ...sent, key: freeKey(build, noun) } : sent;
        const id = idOf(noun, value)!;
        if (getRow(app.store.db, build, noun, id) !== null)
          throw refused(
            'key' in value ? '/key' : '',
            `repeats the ${one} "${id}": change that one, or make this one another`,
          );
        const edit = { noun, id, version: null, value: asValue(value) };
        const stored = write(request, reply, labelOf('Add', noun, value), edit);
        void reply
          .code(201)
          .header('location', `/api/builds/${build}/${addressOf(noun)}/${encodeURIComponent(id)}`);
        return stored;
      },
    );

    app.get<Route>(
      `${list}/:id`,
      {
        schema: {
          tags,
          summary: `One ${one}`,
          params: pathOf('build', 'id'),
          response: { 200: record, ...PROBLEM_RESPONSES },
        },
      },
      (request, reply) => {
        const row = existing(request, noun);
        void reply.header('etag', `"${row.version}"`);
        return onWire(row);
      },
    );

    app.patch<Route>(
      `${list}/:id`,
      {
        schema: {
          tags,
          summary: `Change fields of a ${one}`,
          description:
            'The fields sent replace those stored; the rest stays. Needs If-Match with the version that was read.',
          params: pathOf('build', 'id'),
          headers: IF_MATCH,
          body: part,
          response: { 200: record, ...PROBLEM_RESPONSES },
        },
      },
      (request, reply) => {
        const row = existing(request, noun);
        const version = versionIn(request);
        const value = asValue(readRecord(noun, merged(row.value, request.body)));
        return write(request, reply, labelOf('Change', noun, row.value), {
          noun,
          id: row.id,
          version,
          value,
        });
      },
    );

    app.put<Route>(
      `${list}/:id`,
      {
        schema: {
          tags,
          summary: `Replace a ${one}`,
          description: 'Needs If-Match with the version that was read.',
          params: pathOf('build', 'id'),
          headers: IF_MATCH,
          body: whole,
          response: { 200: record, ...PROBLEM_RESPONSES },
        },
      },
      (request, reply) => {
        const row = existing(request, noun);
        const version = versionIn(request);
        const value = asValue(readRecord(noun, request.body));
        return write(request, reply, labelOf('Change', noun, row.value), {
          noun,
          id: row.id,
          version,
          value,
        });
      },
    );

    app.delete<Route>(
      `${list}/:id`,
      {
        schema: {
          tags,
          summary: `Remove a ${one}`,
          description:
            'Needs If-Match with the version that was read. Refused while other records point at it.',
          params: pathOf('build', 'id'),
          headers: IF_MATCH,
          response: NO_CONTENT,
        },
      },
      (request, reply) => {
        const row = existing(request, noun);
        const edit = { noun, id: row.id, version: versionIn(request), value: null };
        commit(request, labelOf('Remove', noun, row.value), edit);
        return reply.code(204).send();
      },
    );
  }

  function existing(request: NounRequest, noun: NounName): StoredRow {
    const { build, id } = request.params;
    getBuild(app.store.db, build);
    const row = getRow(app.store.db, build, noun, id);
    const what = NOUNS[noun].one;
    if (row === null) throw new PlanError(`There is no ${what} "${id}".`, { code: 'not-found', what, id });
    return row;
  }

  function commit(request: NounRequest, label: string, edit: Edit): void {
    const { build } = request.params;
    const changed = ofOneRecord(() => change(app.store, build, label, [edit], actorOf(request)));
    app.listeners.tell(build, changed, sourceOf(request));
  }

  function write(request: NounRequest, reply: FastifyReply, label: string, edit: Edit & { noun: NounName }) {
    commit(request, label, edit);
    const row = getRow(app.store.db, request.params.build, edit.noun, edit.id)!;
    void reply.header('etag', `"${row.version}"`);
    return onWire(row);
  }

  function freeKey(build: string, noun: NounName): string {
    const taken = new Set(listIds(app.store.db, build, noun));
    let n = taken.size + 1;
    while (taken.has(`${noun[0]}${n}`)) n++;
    return `${noun[0]}${n}`;
  }
};
export default nouns;

/** `zoneGroups` is written `zone-groups` in an address. */
export function addressOf(noun: NounName): string {
  return noun.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

/** The headings of the reference. */
const NAMES: Record<NounName, string> = {
  people: 'People',
  tools: 'Tools',
  conditions: 'Conditions',
  depths: 'Depths',
  zones: 'Zones',
  zoneGroups: 'Zone groups',
  phases: 'Phases',
  tasks: 'Tasks',
  links: 'Links',
  exceptions: 'Exceptions',
  decisions: 'Decisions',
  purchases: 'Purchases',
  hours: 'Hours',
  timers: 'Timers',
  records: 'Records',
  weighings: 'Weighings',
  baselines: 'Baselines',
  dismissals: 'Dismissed findings',
};

function onWire({ id, version, value }: StoredRow) {
  return { id, version, value };
}

function asValue(record: object): Edit['value'] {
  return record as Edit['value'];
}
