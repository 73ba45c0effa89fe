/**
 * What taking a table in would do, row by row, before anything is stored: which rows are new, change something or say what
 * the build says already, what is wrong with the others, and the edits of the good ones. A row is good when the build with
 * all good rows is a build; the others are left out one round after another until it is.
 */
import { withRows, type Laid } from '../changes/apply.ts';
import type { BuildFile } from '../contract/build-file.ts';
import { faultsOf } from '../contract/faults.ts';
import { idOf, NOUNS, type NounName } from '../contract/nouns.ts';
import { pointer, pointerSteps } from '../contract/pointer.ts';
import { referenceFaults } from '../contract/references.ts';
import type { FieldFault } from '../errors.ts';
import {
  readTable,
  valueAt,
  type Draft,
  type ReadColumns,
  type ReadRow,
  type RowFault,
  type Table,
} from './table.ts';
import { HOURS } from './tables/hours.ts';
import { LINKS } from './tables/links.ts';
import { PURCHASES } from './tables/purchases.ts';
import { TASKS } from './tables/tasks.ts';

export const TABLES = { tasks: TASKS, links: LINKS, purchases: PURCHASES, hours: HOURS } as const;
export type TableName = keyof typeof TABLES;
export const TABLE_NAMES = Object.keys(TABLES) as TableName[];

export interface IntakeRow {
  readonly row: number;
  readonly cells: Readonly<Record<string, string>>;
  readonly is: 'new' | 'changed' | 'same' | 'wrong';
  readonly faults: readonly RowFault[];
}

export interface Intake {
  readonly columns: ReadColumns;
  readonly rows: readonly IntakeRow[];
  /** Of the good rows; a record that stays as it is has none. */
  readonly edits: readonly Laid[];
  /** Of the build as it would become that no row answers for: with one of these nothing can be taken in. */
  readonly faults: readonly string[];
}

/** Rounds after which rows that each break another are given up. */
const MOST_ROUNDS = 50;

/** @throws PlanError `too-large`, `bad-table` */
export function takeIn(name: TableName, text: string, file: BuildFile): Intake {
  const table: Table = TABLES[name];
  const { columns, rows } = readTable(table, text, file);
  const { wrong, drafts, faults } = settle(table, rows, file);
  return {
    columns,
    faults,
    rows: rows.map((row): IntakeRow => {
      const found = wrong.get(row) ?? [];
      return { row: row.row, cells: row.cells, is: found.length > 0 ? 'wrong' : kindOf(row), faults: found };
    }),
    edits: faults.length > 0 ? [] : drafts.filter((draft) => isNews(draft, file)).map(asEdit),
  };
}

type Wrong = Map<ReadRow, RowFault[]>;

interface Settled {
  readonly wrong: Wrong;
  readonly drafts: readonly Draft[];
  readonly faults: readonly string[];
}

function settle(table: Table, rows: readonly ReadRow[], file: BuildFile): Settled {
  const leaders = table.leaderOf?.(rows) ?? new Map<ReadRow, ReadRow>();
  const wrong: Wrong = new Map(
    rows.filter(({ faults }) => faults.length > 0).map((row) => [row, [...row.faults]]),
  );
  for (let round = 0; round < MOST_ROUNDS; round++) {
    leaveFollowersOut(leaders, wrong);
    const good = rows.filter((row) => !wrong.has(row));
    const { drafts, faults } = table.assemble(good, file);
    const blamed = faults.map(({ row, fault }) => [row, fault] as const);
    if (blamed.length === 0) blamed.push(...drafts.flatMap((draft) => schemaFaults(table, draft)));
    const loose: string[] = [];
    if (blamed.length === 0)
      for (const fault of referenceFaults(withRows(file, drafts.map(asEdit)))) {
        const answer = answerFor(table, drafts, file, fault);
        if (answer === null) loose.push(`${fault.pointer} ${fault.detail}`);
        else blamed.push(answer);
      }
    if (blamed.length === 0) return { wrong, drafts, faults: loose };
    for (const [row, fault] of blamed) wrong.set(row, [...(wrong.get(row) ?? []), fault]);
  }
  const detail = 'Too many rows break one another: mend the first of them, then take the table in again.';
  return { wrong, drafts: [], faults: [detail] };
}

function leaveFollowersOut(leaders: ReadonlyMap<ReadRow, ReadRow>, wrong: Wrong): void {
  for (const [row, leader] of leaders)
    if (wrong.has(leader) && !wrong.has(row)) {
      const detail = `belongs to the purchase of row ${leader.row}, which cannot be taken in`;
      wrong.set(row, [{ column: null, detail }]);
    }
}

function schemaFaults(table: Table, { noun, value, from }: Draft): (readonly [ReadRow, RowFault])[] {
  return faultsOf(NOUNS[noun].schema, value).map(({ pointer: at, detail }) => {
    const { row, at: own } = from(at);
    return [row, faultAt(table, own, detail)] as const;
  });
}

/** The row that answers for a fault of the build as it would become; null when none does. */
function answerFor(
  table: Table,
  drafts: readonly Draft[],
  file: BuildFile,
  { pointer: at, detail }: FieldFault,
): readonly [ReadRow, RowFault] | null {
  const [list = '', index = '', ...rest] = pointerSteps(at);
  if (!Object.hasOwn(NOUNS, list)) return null;
  const after = withRows(file, drafts.map(asEdit));
  const record = after[list as NounName][Number(index)];
  const id = record === undefined ? null : idOf(list as NounName, record);
  const draft = drafts.find((one) => one.noun === list && one.id === id);
  if (draft === undefined) return null;
  const { row, at: own } = draft.from(rest.length === 0 ? '' : pointer(...rest));
  return [row, faultAt(table, own, detail)];
}

/** Spoken of by its column; what has none keeps the name of its field. */
function faultAt({ columns }: Table, at: string, detail: string): RowFault {
  const words = detail.replace(/^is null/, 'is blank');
  const column = columns.find((one) => at === one.at || at.startsWith(`${one.at}/`));
  if (column !== undefined) return { column: column.name, detail: words };
  const field = at.split('/').at(-1) ?? '';
  return { column: null, detail: field === '' ? words : `${field} ${words}` };
}

function kindOf({ found, values, cells }: ReadRow): IntakeRow['is'] {
  if (found === null) return 'new';
  const isNewLine =
    'line' in found &&
    found.line === null &&
    [...values.keys()].some((at) => at.startsWith('/line/')) &&
    Object.keys(cells).length > 0;
  if (isNewLine) return 'new';
  const differs = [...values].some(
    ([at, value]) => JSON.stringify(valueAt(found, at)) !== JSON.stringify(value),
  );
  return differs ? 'changed' : 'same';
}

function isNews({ noun, id, value }: Draft, file: BuildFile): boolean {
  const before = recordOf(file, noun, id);
  return before === null || JSON.stringify(before) !== JSON.stringify(value);
}

const indexes = new WeakMap<readonly object[], ReadonlyMap<string | null, object>>();

function recordOf(file: BuildFile, noun: NounName, id: string): object | null {
  const list = file[noun];
  let index = indexes.get(list);
  if (index === undefined)
    indexes.set(list, (index = new Map(list.map((record) => [idOf(noun, record), record]))));
  return index.get(id) ?? null;
}

function asEdit({ noun, id, value }: Draft): Laid {
  return { noun, id, value: value as unknown as NonNullable<Laid['value']> };
}

const MANY: Readonly<Record<TableName, readonly [one: string, many: string]>> = {
  tasks: ['task', 'tasks'],
  links: ['link', 'links'],
  purchases: ['purchase', 'purchases'],
  hours: ['entry of hours', 'entries of hours'],
};

/** What was done, for the history. */
export function labelOfIntake(name: TableName, { edits }: Intake): string {
  const [one, many] = MANY[name];
  return `Take in ${edits.length} ${edits.length === 1 ? one : many} from a table`;
}
