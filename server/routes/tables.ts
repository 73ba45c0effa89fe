/** /api/builds/{build}/tables/{table}: tables out as CSV, and in again: what each row would do, and the change if asked for. */
import { Type } from 'typebox';
import type { FastifyPluginCallback } from 'fastify';
import { pointer } from '#shared/contract/pointer.ts';
import { Changed, type Edit } from '#shared/contract/changes.ts';
import { MOST_BYTES } from '#shared/exchange/csv.ts';
import {
  labelOfIntake,
  takeIn,
  TABLE_NAMES,
  TABLES,
  type Intake,
  type TableName,
} from '#shared/exchange/intake.ts';
import { badTable, writeTable } from '#shared/exchange/table.ts';
import { PlanError } from '#shared/errors.ts';
import { versionIn, type Snapshot } from '../store/builds.ts';
import { change } from '../store/journal.ts';
import { actorOf, sourceOf } from '../plugins/store.ts';
import { pathOf } from './parameters.ts';
import { PROBLEM_RESPONSES } from './problem-schema.ts';

const tags = ['Tables'];
const params = pathOf('build', 'table');
const csv = { schema: { type: 'string', description: 'a table, its first row the names of its columns' } };
const TAKES = ['none', 'good', 'all'] as const;

const Taken = Type.Object(
  {
    columns: Type.Object({ understood: Type.Array(Type.String()), unknown: Type.Array(Type.String()) }),
    rows: Type.Array(
      Type.Object({
        row: Type.Integer({ description: 'as a spreadsheet counts: the header is row 1' }),
        is: Type.Enum(['new', 'changed', 'same', 'wrong']),
        faults: Type.Array(
          Type.Object({ column: Type.Union([Type.String(), Type.Null()]), detail: Type.String() }),
        ),
      }),
    ),
    faults: Type.Array(Type.String(), { description: 'why nothing at all can be taken in' }),
    edits: Type.Integer({ description: 'how many records the good rows would change' }),
    changed: Type.Union([Changed, Type.Null()], { description: 'what was stored; null when nothing was' }),
  },
  { additionalProperties: false },
);

interface Params {
  readonly build: string;
  readonly table: string;
}

const tables: FastifyPluginCallback = (app, _options, done) => {
  app.removeAllContentTypeParsers();
  app.addContentTypeParser(
    ['text/csv', 'text/plain', 'text/tab-separated-values'],
    { parseAs: 'buffer' },
    (_request, body, parsed) => parsed(null, body),
  );

  app.get<{ Params: Params }>(
    '/:build/tables/:table',
    {
      schema: {
        tags,
        summary: 'A table of the build as CSV',
        description:
          'RFC 4180 in UTF-8. A cell that a spreadsheet would run as a formula has an apostrophe before it, which is taken off when it comes in again.',
        params,
        response: {
          200: { description: 'the table', content: { 'text/csv': csv } },
          ...PROBLEM_RESPONSES,
        },
      },
    },
    (request, reply) => {
      const { build } = request.params;
      const { file } = app.answers.snapshot(build).snapshot;
      const table = tableOf(request.params.table);
      return reply
        .type('text/csv; charset=utf-8; header=present')
        .header('content-disposition', `attachment; filename="${build}-${table}.csv"`)
        .send(writeTable(TABLES[table], file));
    },
  );

  app.post<{ Params: Params; Querystring: { take?: string }; Body: unknown }>(
    '/:build/tables/:table',
    {
      bodyLimit: MOST_BYTES,
      schema: {
        tags,
        summary: 'Look at a table, or take it in',
        description:
          'Commas, semicolons or tabs between cells, a decimal point or comma in amounts. Rows are told from one another by their keys; what a table leaves out stays as it is, and nothing is removed. All that is taken in is one step of undo.',
        params,
        querystring: {
          type: 'object',
          properties: {
            take: {
              type: 'string',
              enum: [...TAKES],
              description: 'what to store: none (left out: only look), good rows, or all and nothing else',
            },
          },
        },
        consumes: ['text/csv'],
        body: csv.schema,
        response: { 200: Taken, ...PROBLEM_RESPONSES },
      },
    },
    (request) => {
      const { build } = request.params;
      const { take = 'none' } = request.query;
      const { snapshot } = app.answers.snapshot(build);
      const table = tableOf(request.params.table);
      const intake = takeIn(table, textOf(request.body), snapshot.file);
      if (take === 'all') refuseWrong(intake);
      if (take !== 'none' && intake.faults[0] !== undefined) throw badTable('', intake.faults[0]);
      const edits = take === 'none' ? [] : editsOf(intake, snapshot);
      const label = labelOfIntake(table, intake);
      const changed = edits.length === 0 ? null : change(app.store, build, label, edits, actorOf(request));
      if (changed !== null) app.listeners.tell(build, changed, sourceOf(request));
      const { columns, rows, faults } = intake;
      return {
        columns,
        faults,
        changed,
        edits: intake.edits.length,
        rows: rows.map(({ row, is, faults: own }) => ({ row, is, faults: own })),
      };
    },
  );
  done();
};
export default tables;

function tableOf(name: string): TableName {
  const found = TABLE_NAMES.find((one) => one === name);
  if (found === undefined)
    throw new PlanError(`There is no table "${name}": there are ${TABLE_NAMES.join(', ')}.`, {
      code: 'not-found',
      what: 'table',
      id: name,
    });
  return found;
}

/** @throws PlanError `bad-table` for what is not UTF-8: letters would be lost without a word */
function textOf(body: unknown): string {
  if (!Buffer.isBuffer(body)) return '';
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(body);
  } catch {
    throw badTable('', 'is not written in UTF-8: save it as CSV in UTF-8');
  }
}

/** @throws PlanError `bad-table`, a fault per row and column that is wrong */
function refuseWrong({ rows }: Intake): void {
  const errors = rows.flatMap(({ row, faults }) =>
    faults.map(({ column, detail }) => ({
      pointer: column === null ? pointer('rows', row) : pointer('rows', row, column),
      detail,
    })),
  );
  const [first] = errors;
  if (first === undefined) return;
  const more = errors.length > 1 ? `, and ${errors.length - 1} more` : '';
  throw new PlanError(`The table is not right: ${first.pointer} ${first.detail}${more}.`, {
    code: 'bad-table',
    errors,
  });
}

function editsOf({ edits }: Intake, snapshot: Snapshot): Edit[] {
  return edits.map(({ noun, id, value }) => ({ noun, id, value, version: versionIn(snapshot, noun, id) }));
}
