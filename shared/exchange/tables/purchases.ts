/**
 * Purchases as a table: one row a line, with what is said of its purchase on each. Quotes, deliveries, payments and
 * receipts stay as they are. Rows that name no purchase but the same supplier become one, others one each.
 */
import type { BuildFile } from '../../contract/build-file.ts';
import { withDefaults } from '../../contract/defaults.ts';
import type { SchemaNode } from '../../contract/faults.ts';
import { keyGiver } from '../../contract/new-key.ts';
import { LINE_CATEGORIES, Purchase, PurchaseLine, PURCHASE_STATES } from '../../contract/purchase.ts';
import { minorDigits } from '../../money/currency.ts';
import * as cells from '../cells.ts';
import {
  withValue,
  type Assembled,
  type Column,
  type Draft,
  type ReadRow,
  type RowFault,
  type Table,
} from '../table.ts';
import { withKey } from './plain.ts';

/** What a row holds: a line, null for a purchase that has none, and its purchase. */
export interface PurchaseRow {
  readonly purchase: Purchase;
  readonly line: PurchaseLine | null;
}

const OF_PURCHASE: readonly Column[] = [
  { name: 'purchase', also: ['purchase key', 'order'], at: '/purchase/key', cell: cells.KEY },
  {
    name: 'supplier',
    also: ['shop', 'seller', 'store'],
    at: '/purchase/supplier',
    cell: cells.TEXT,
    blank: '',
  },
  { name: 'state', at: '/purchase/state', cell: cells.oneOf(PURCHASE_STATES), blank: 'wanted' },
  {
    name: 'lead days',
    also: ['lead time', 'delivery days'],
    at: '/purchase/leadDays',
    cell: cells.WHOLE,
    blank: 0,
  },
  { name: 'lead days at worst', at: '/purchase/leadDaysBad', cell: cells.WHOLE },
  { name: 'ordered on', also: ['ordered', 'order date'], at: '/purchase/orderedOn', cell: cells.DAY },
  { name: 'promised for', also: ['promised', 'promised on'], at: '/purchase/promisedOn', cell: cells.DAY },
  { name: 'currency', at: '/purchase/currency', cell: cells.CURRENCY_CODE },
  { name: 'exchange rate', at: '/purchase/rate', cell: cells.NUMBER, blank: 1 },
  { name: 'shipping', also: ['postage'], at: '/purchase/shipping', cell: cells.MONEY, blank: 0 },
  {
    name: 'shipping tax percent',
    also: ['shipping tax'],
    at: '/purchase/shippingTaxPercent',
    cell: cells.NUMBER,
    blank: 0,
  },
  { name: 'shipping tax included', at: '/purchase/shippingTaxIncluded', cell: cells.FLAG, blank: true },
  { name: 'discount', at: '/purchase/discount', cell: cells.MONEY, blank: 0 },
];

const OF_LINE: readonly Column[] = [
  { name: 'line', also: ['line key'], at: '/line/key', cell: cells.KEY },
  {
    name: 'name',
    also: ['part', 'item', 'what', 'description', 'article', 'product'],
    at: '/line/name',
    cell: cells.TEXT,
  },
  {
    name: 'category',
    also: ['kind'],
    at: '/line/category',
    cell: cells.oneOf(LINE_CATEGORIES),
    blank: 'material',
  },
  { name: 'phase', at: '/line/phase', cell: cells.reference('phases') },
  {
    name: 'needed by',
    also: ['tasks', 'task', 'needed for'],
    at: '/line/neededBy',
    cell: cells.references('tasks'),
    blank: [],
  },
  {
    name: 'quantity',
    also: ['qty', 'pieces', 'pcs', 'count'],
    at: '/line/quantity',
    cell: cells.NUMBER,
    blank: 1,
  },
  { name: 'unit', at: '/line/unit', cell: cells.TEXT, blank: 'pc' },
  {
    name: 'unit price',
    also: ['price', 'price of one', 'price each', 'each'],
    at: '/line/unitPrice',
    cell: cells.MONEY,
  },
  { name: 'price low', at: '/line/priceLow', cell: cells.MONEY },
  { name: 'price high', at: '/line/priceHigh', cell: cells.MONEY },
  { name: 'price confirmed', at: '/line/priceConfirmed', cell: cells.FLAG, blank: false },
  { name: 'tax percent', also: ['tax', 'vat'], at: '/line/taxPercent', cell: cells.NUMBER, blank: 0 },
  { name: 'tax included', at: '/line/taxIncluded', cell: cells.FLAG, blank: true },
  { name: 'keeps for days', also: ['shelf life days'], at: '/line/shelfLifeDays', cell: cells.WHOLE },
  { name: 'can go back within days', also: ['return days'], at: '/line/returnDays', cell: cells.WHOLE },
  { name: 'mass kg', also: ['mass', 'weight', 'weight kg'], at: '/line/mass', cell: cells.KILOGRAMS },
  { name: 'mass weighed', also: ['weighed'], at: '/line/massWeighed', cell: cells.FLAG, blank: false },
  {
    name: 'share that stays in',
    also: ['fitted share'],
    at: '/line/fittedShare',
    cell: cells.NUMBER,
    blank: 1,
  },
  { name: 'x mm', also: ['x'], at: '/line/x', cell: cells.WHOLE },
  { name: 'y mm', also: ['y'], at: '/line/y', cell: cells.WHOLE },
  { name: 'z mm', also: ['z'], at: '/line/z', cell: cells.WHOLE },
  { name: 'size mm', also: ['size'], at: '/line/size', cell: cells.SIZE },
  { name: 'serial number', also: ['serial'], at: '/line/serial', cell: cells.TEXT },
];

export const PURCHASES: Table = {
  name: 'purchases',
  columns: [...OF_PURCHASE, ...OF_LINE],
  shown: [],
  rowsOf: (file) =>
    file.purchases.flatMap((purchase): PurchaseRow[] =>
      purchase.lines.length === 0
        ? [{ purchase, line: null }]
        : purchase.lines.map((line) => ({ purchase, line })),
    ),
  found: (row, file) => {
    const purchase = withKey(file.purchases, row['purchase']);
    return purchase === null ? null : ({ purchase, line: lineIn(purchase, row) } satisfies PurchaseRow);
  },
  contextOf: ({ purchase, currency = '' }, file) => {
    const own = currency.trim().toUpperCase() || withKey(file.purchases, purchase)?.currency;
    return { file, digits: minorDigits(own ?? file.build.currency) };
  },
  assemble,
  leaderOf: (rows) => {
    const leaders = new Map<ReadRow, ReadRow>();
    for (const [first, ...others] of groupsOf(rows).values())
      for (const row of others) leaders.set(row, first!);
    return leaders;
  },
};

type Cells = Readonly<Record<string, string>>;

/** By its key; a row that gives none means the only line of that name. */
function lineIn({ lines }: Purchase, { line = '', name = '' }: Cells): PurchaseLine | null {
  if (line.trim() !== '') return withKey(lines, line);
  const named = lines.filter((one) => one.name === name);
  return named.length === 1 ? named[0]! : null;
}

/** A purchase that has no lines is a row without a cell of a line. */
function hasLine({ cells: row }: ReadRow): boolean {
  return OF_LINE.some(({ name }) => (row[name] ?? '').trim() !== '');
}

function assemble(rows: readonly ReadRow[], file: BuildFile): Assembled {
  const given = rows.map(({ cells: { purchase = '' } }) => purchase.trim());
  const newKey = keyGiver([...file.purchases.map(({ key }) => key), ...given]);
  const faults: { row: ReadRow; fault: RowFault }[] = [];
  const drafts = [...groupsOf(rows).values()].map((group) => {
    faults.push(...disagreements(group));
    return draftOf(group, newKey, faults);
  });
  return { drafts, faults };
}

function groupsOf(rows: readonly ReadRow[]): ReadonlyMap<string, ReadRow[]> {
  const groups = new Map<string, ReadRow[]>();
  for (const row of rows) {
    const { purchase = '', supplier = '' } = row.cells;
    const id =
      purchase.trim() !== ''
        ? `key ${purchase.trim()}`
        : supplier.trim() !== ''
          ? `supplier ${supplier.trim()}`
          : `row ${row.row}`;
    const group = groups.get(id);
    if (group === undefined) groups.set(id, [row]);
    else group.push(row);
  }
  return groups;
}

/** What the rows of a purchase say of it is said by the first; others say the same or nothing. */
function disagreements([first, ...others]: readonly ReadRow[]): { row: ReadRow; fault: RowFault }[] {
  return others.flatMap((row) =>
    OF_PURCHASE.filter(({ name }) => {
      const text = (row.cells[name] ?? '').trim();
      return text !== '' && text !== (first!.cells[name] ?? '').trim();
    }).map(({ name }) => ({
      row,
      fault: {
        column: name,
        detail: `is not what row ${first!.row} says of the same purchase: it must be the same or blank`,
      },
    })),
  );
}

function draftOf(
  group: readonly ReadRow[],
  newKey: (name: string) => string,
  faults: { row: ReadRow; fault: RowFault }[],
): Draft {
  const first = group[0]!;
  const before = (first.found as PurchaseRow | null)?.purchase ?? null;
  const blank = withDefaults(Purchase as unknown as SchemaNode, {}) as Purchase;
  const told = valuesOf(first, '/purchase').reduce(
    (purchase, [at, value]) => withValue(purchase, at, value),
    before ?? blank,
  );
  const name = first.cells['name'] ?? '';
  const key = told.key ?? newKey(first.cells['supplier']?.trim() || name);
  const { lines, rowOf } = linesOf(group, before?.lines ?? [], faults);
  return {
    noun: 'purchases',
    id: key,
    value: { ...told, key, lines },
    from: (pointer) => {
      const [, index, rest] = /^\/lines\/(\d+)(.*)$/.exec(pointer) ?? [];
      return index === undefined
        ? { row: first, at: `/purchase${pointer}` }
        : { row: rowOf.get(Number(index)) ?? first, at: `/line${rest ?? ''}` };
    },
  };
}

/** Lines of the build keep their place, new ones come last. */
function linesOf(
  group: readonly ReadRow[],
  before: readonly PurchaseLine[],
  faults: { row: ReadRow; fault: RowFault }[],
): { lines: PurchaseLine[]; rowOf: ReadonlyMap<number, ReadRow> } {
  const lines = [...before];
  const rowOf = new Map<number, ReadRow>();
  const given = group.map(({ cells: { line = '' } }) => line.trim());
  const newKey = keyGiver([...before.map(({ key }) => key), ...given]);
  const blank = withDefaults(PurchaseLine as unknown as SchemaNode, {}) as PurchaseLine;
  for (const row of group.filter(hasLine)) {
    const found = (row.found as PurchaseRow | null)?.line ?? null;
    const told = valuesOf(row, '/line').reduce(
      (line, [at, value]) => withValue(line, at, value),
      found ?? { ...blank, quantity: 1 },
    );
    const line = { ...told, key: told.key ?? newKey(told.name ?? '') };
    const same = lines.findIndex(({ key }) => key === line.key);
    if (same !== -1 && rowOf.has(same)) {
      const detail = `is about the same line as row ${rowOf.get(same)!.row}: leave one out`;
      faults.push({ row, fault: { column: null, detail } });
      continue;
    }
    const at = same === -1 ? lines.length : same;
    lines[at] = line;
    rowOf.set(at, row);
  }
  return { lines, rowOf };
}

/** The values of a row below a pointer, by the pointers left. */
function valuesOf({ values }: ReadRow, below: string): [string, unknown][] {
  return [...values]
    .filter(([at]) => at.startsWith(`${below}/`))
    .map(([at, value]) => [at.slice(below.length), value]);
}
