/** Taking a table in: what each row would do, what is wrong with it in words, and the edits of the good ones. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withRows } from '#shared/changes/apply.ts';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { isOneLine, isPlainText } from '#shared/contract/formats.ts';
import { readBuild } from '#shared/contract/read.ts';
import { referenceFaults } from '#shared/contract/references.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { PlanError } from '#shared/errors.ts';
import { MOST_BYTES, MOST_ROWS } from '#shared/exchange/csv.ts';
import { takeIn, TABLE_NAMES, TABLES, type Intake, type TableName } from '#shared/exchange/intake.ts';
import { writeTable } from '#shared/exchange/table.ts';
import { fullDocument } from '../../support/full-document.ts';

const demo = keyed(wagtail());
const full = keyed(readBuild(fullDocument()));

describe('what goes out', () => {
  it.each(TABLE_NAMES)('should change nothing when it comes in again: %s', (name) => {
    for (const file of [demo, full]) {
      const { edits, faults, rows } = takeIn(name, writeTable(TABLES[name], file), file);
      expect([edits, faults]).toEqual([[], []]);
      expect(rows.filter((row) => row.is !== 'same')).toEqual([]);
      expect(rows.length).toBeGreaterThan(0);
    }
  });

  it.each(TABLE_NAMES)('should make the same records in a build that lacks them: %s', (name) => {
    const noun = name;
    const without = { ...full, [noun]: [], ...(name === 'tasks' ? LOOSE : {}) } as BuildFile;
    const after = applied(without, takeIn(name, writeTable(TABLES[name], full), without));
    const bare = (record: object) =>
      Object.fromEntries(Object.entries(record).filter(([key]) => !INNER.has(key)));
    expect(after[noun].map(bare)).toEqual(full[noun].map(bare));
  });

  it('should keep any text of a task, a link, an entry of hours and a line', () => {
    const line = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 40 }).filter(isOneLine);
    const nasty = fc.string({ unit: fc.constantFrom(...`,;"'=+-@\t\r\n 1ü`), maxLength: 20 });
    const text = fc.oneof(fc.string({ unit: 'grapheme', maxLength: 60 }), nasty).filter(isPlainText);
    const nastyLine = fc.oneof(
      line,
      nasty.filter((one) => one !== '' && isOneLine(one)),
    );
    fc.assert(
      fc.property(nastyLine, text, (name, note) => {
        const file = withTexts(full, name, note);
        for (const table of TABLE_NAMES) {
          const out = writeTable(TABLES[table], file);
          const { edits, rows } = takeIn(table, out, file);
          expect(rows.flatMap((row) => row.faults)).toEqual([]);
          expect(edits).toEqual([]);
          // Into the build with other texts, so that each cell has to carry its own.
          const after = applied(full, takeIn(table, out, full));
          expect(textsOf(after, table)).toEqual(textsOf(file, table));
        }
      }),
    );
  });
});

describe('a row', () => {
  it('should change only what its columns say', () => {
    const { edits, rows } = takeIn('tasks', 'key,note,hours likely\nclose-wall,"oiled, twice",8:15\n', full);
    expect(rows).toMatchObject([{ row: 2, is: 'changed', faults: [] }]);
    const before = full.tasks.find(({ key }) => key === 'close-wall')!;
    expect(edits).toMatchObject([
      {
        noun: 'tasks',
        id: 'close-wall',
        value: { ...before, note: 'oiled, twice', minutes: { ...before.minutes, likely: 495 } },
      },
    ]);
  });

  it('should be a new task with a key of its name, and one estimate for all three', () => {
    const { edits } = takeIn(
      'tasks',
      'Task;Hours;Phase\nSand the lining;1,5;First-fix electrics\nSand the lining;2;\n',
      full,
    );
    expect(edits.map(({ id }) => id)).toEqual(['sand-the-lining', 'sand-the-lining-2']);
    expect(edits[0]!.value).toMatchObject({
      minutes: { low: 90, likely: 90, high: 90 },
      phase: 'first-fix',
      people: 1,
    });
  });

  it.each<[TableName, string, { column: string | null; detail: unknown }]>([
    [
      'tasks',
      'name,hours\n,2',
      { column: 'name', detail: expect.stringMatching(/is blank: it must be one line of text/) },
    ],
    [
      'tasks',
      'name,hours\nx,',
      { column: 'hours likely', detail: expect.stringMatching(/is blank: it must be/) },
    ],
    [
      'tasks',
      'name,hours\nx,soon',
      { column: 'hours likely', detail: 'is "soon": it must be hours and minutes, such as 7:45 or 7.75' },
    ],
    [
      'tasks',
      'name,hours,phase\nx,1,wood',
      { column: 'phase', detail: 'is "wood": there is no phase of that key or name' },
    ],
    [
      'tasks',
      'name,hours,state\nx,1,started',
      { column: 'started', detail: expect.stringMatching(/it must say when it began/) },
    ],
    [
      'tasks',
      'name,hours,places\nx,1,L2 roof',
      { column: 'places', detail: expect.stringMatching(/no depth in L2 called "roof"/) },
    ],
    [
      'tasks',
      'name,hours,places\nx,1,L2',
      { column: 'places', detail: expect.stringMatching(/it must be places such as/) },
    ],
    [
      'tasks',
      'key,hours low\nclose-wall,20:00',
      { column: 'hours low', detail: expect.stringMatching(/is more than likely/) },
    ],
    [
      'links',
      'first,then\nhose-test,hose-test',
      { column: 'then', detail: expect.stringMatching(/linked to itself/) },
    ],
    [
      'links',
      'first,then,kind\nhose-test,close-wall,XY',
      { column: 'kind', detail: 'is "XY": it must be one of: FS, SS, FF, SF' },
    ],
    [
      'hours',
      'day,person,time\n2027-03-04,ines,24:30',
      { column: 'time', detail: expect.stringMatching(/1 to 1440/) },
    ],
    [
      'hours',
      'day,person,time\n2027-03-04,ines,23:00',
      { column: 'time', detail: expect.stringMatching(/a day has 1440/) },
    ],
    [
      'hours',
      'day,person,time\n1492-03-04,ines,1',
      { column: 'day', detail: 'is "1492-03-04": it must be a day, written 2027-03-13' },
    ],
    [
      'hours',
      'day,person,time\n2027-03-04,,1',
      { column: 'person', detail: expect.stringMatching(/is blank/) },
    ],
    [
      'purchases',
      'name,unit price\nhose,"1,234"',
      { column: 'unit price', detail: expect.stringMatching(/can be read in two ways/) },
    ],
    [
      'purchases',
      'name,quantity\nhose,-2',
      { column: 'quantity', detail: expect.stringMatching(/a quantity above 0/) },
    ],
    [
      'purchases',
      'name,state\nhose,ordered',
      { column: 'ordered on', detail: expect.stringMatching(/must say on which day/) },
    ],
    [
      'purchases',
      'name,quantity\nhose, 12 mm,3',
      { column: null, detail: expect.stringMatching(/has 3 cells, but the header has 2/) },
    ],
  ])('should say what is wrong and what would be right: %s %j', (table, text, fault) => {
    const { rows, edits, faults } = takeIn(table, text, full);
    expect(rows).toMatchObject([{ row: 2, is: 'wrong' }]);
    expect(rows[0]!.faults).toContainEqual(fault);
    expect([edits, faults]).toEqual([[], []]);
  });

  it('should not be said twice', () => {
    const { rows } = takeIn('tasks', 'key,note\nclose-wall,a\nclose-wall,b', full);
    expect(rows.map(({ is }) => is)).toEqual(['changed', 'wrong']);
    expect(rows[1]!.faults[0]!.detail).toBe('is about the same task as row 2: leave one out');
  });

  it('should be left out together with no other: the good ones make a build', () => {
    const text =
      'day,person,time\n2027-03-05,ines,20:00\n2027-03-05,ines,6:00\n2027-03-06,nobody,1\n2027-03-05,ines,4:00';
    const intake = takeIn('hours', text, full);
    expect(intake.rows.map(({ is }) => is)).toEqual(['new', 'wrong', 'wrong', 'new']);
    expect(referenceFaults(applied(full, intake))).toEqual([]);
  });
});

describe('the lines of a purchase', () => {
  it('should be changed or added, with what else the purchase has kept', () => {
    const text = 'purchase,line,name,quantity\nhose-shop,elbow,hose elbow,6\nhose-shop,,clip,10';
    const { edits, rows } = takeIn('purchases', text, full);
    expect(rows.map(({ is }) => is)).toEqual(['changed', 'new']);
    const [before] = full.purchases;
    expect(edits).toHaveLength(1);
    expect(edits[0]!.value).toMatchObject({
      payments: before!.payments,
      deliveries: before!.deliveries,
      lines: [
        { ...before!.lines[0]!, name: 'hose elbow', quantity: 6 },
        { key: 'clip', name: 'clip', quantity: 10 },
      ],
    });
  });

  it('should agree on what they say of it', () => {
    const text = 'supplier,purchase,name\nthe shop,p1,a\nanother,p1,b\n,p1,c';
    const { rows } = takeIn('purchases', text, full);
    expect(rows.map(({ is }) => is)).toEqual(['new', 'wrong', 'new']);
    expect(rows[1]!.faults[0]!.detail).toMatch(/is not what row 2 says of the same purchase/);
  });

  it('should be left out with the row that says whose they are', () => {
    const { rows, edits } = takeIn('purchases', 'purchase,state,name\np1,bought,a\np1,,b', full);
    expect(rows.map(({ is }) => is)).toEqual(['wrong', 'wrong']);
    expect(rows[1]!.faults[0]!.detail).toBe('belongs to the purchase of row 2, which cannot be taken in');
    expect(edits).toEqual([]);
  });

  it('should have the decimals of the currency of their purchase', () => {
    const { edits } = takeIn('purchases', 'name,price,currency\ntent,12000,JPY\npeg,1.50,EUR', full);
    expect(
      edits.map(({ value }) => (value as { lines: { unitPrice: number }[] }).lines[0]!.unitPrice),
    ).toEqual([12_000, 150]);
  });

  it('should come from a pasted table, with the columns nobody knows named', () => {
    const pasted =
      'Part\tQty\tPrice (€)\tShop\tColour\nelbow, 12 mm\t4\t3,90\tthe hose shop\tred\nhose 3/4"\t2,5\t1.234,50\tthe hose shop\t\nbad\tx\t1\t\t';
    const { columns, rows, edits } = takeIn('purchases', pasted, full);
    expect(columns).toEqual({
      understood: ['name', 'quantity', 'unit price', 'supplier'],
      unknown: ['Colour'],
    });
    expect(rows.map(({ row, is }) => [row, is])).toEqual([
      [2, 'new'],
      [3, 'new'],
      [4, 'wrong'],
    ]);
    expect(edits.map(({ value }) => value)).toMatchObject([
      {
        supplier: 'the hose shop',
        state: 'wanted',
        lines: [
          { name: 'elbow, 12 mm', quantity: 4, unitPrice: 390 },
          { name: 'hose 3/4"', quantity: 2.5, unitPrice: 123_450 },
        ],
      },
    ]);
  });
});

describe('a table as a whole', () => {
  it.each([
    ['', /is empty/],
    ['1,2\n3,4', /no column that is known here: its first row must name some of key, name/],
    ['name,what\na,b', /names the column "name" twice \(name and what\)/],
  ])('should be refused with a reason: %j', (text, words) => {
    expect(failure(() => takeIn('tasks', text, full))).toMatchObject({
      code: 'bad-table',
      message: expect.stringMatching(words) as string,
    });
  });

  it('should not be larger than one change may be', () => {
    expect(failure(() => takeIn('hours', 'x'.repeat(MOST_BYTES + 1), full))).toMatchObject({
      code: 'too-large',
      most: MOST_BYTES,
    });
    const rows = 'name\n' + 'x\n'.repeat(MOST_ROWS + 1);
    expect(failure(() => takeIn('tasks', rows, full)).message).toMatch(/has 20001 rows: at most 20000/);
  });

  it('should take as many rows as it may in a few seconds', () => {
    const rows = Array.from(
      { length: MOST_ROWS },
      (_, i) => `2027-01-${String((i % 28) + 1).padStart(2, '0')},ines,0:01`,
    );
    const start = performance.now();
    const intake = takeIn('hours', `day,person,time\n${rows.join('\n')}`, full);
    expect(intake.edits).toHaveLength(MOST_ROWS);
    expect(performance.now() - start).toBeLessThan(20_000);
  });
});

// Helpers

/** Every record with a key, as the store has it. */
function keyed(file: BuildFile): BuildFile {
  return { ...file, hours: file.hours.map((entry, i) => ({ ...entry, key: entry.key ?? `h${i + 1}` })) };
}

/** What would point at tasks that are not there. */
const LOOSE = {
  links: [],
  exceptions: [],
  order: [],
  decisions: [],
  purchases: [],
  hours: [],
  timers: [],
  records: [],
};
/** Lists within records, which tables leave alone. */
const INNER = new Set([
  'steps',
  'holdPoints',
  'quotes',
  'deliveries',
  'returns',
  'payments',
  'receipts',
  'charges',
]);

function applied(file: BuildFile, { edits }: Intake): BuildFile {
  return withRows(file, edits);
}

function withTexts(file: BuildFile, name: string, text: string): BuildFile {
  return {
    ...file,
    tasks: file.tasks.map((one, i) => (i === 2 ? { ...one, name, note: text, fixedWhy: text } : one)),
    links: file.links.map((one) => ({ ...one, reason: text })),
    hours: file.hours.map((one) => ({ ...one, note: text })),
    purchases: file.purchases.map((one) => ({
      ...one,
      supplier: text,
      lines: one.lines.map((line) => ({
        ...line,
        name,
        unit: Array.from(text).slice(0, 10).join(''),
        serial: text,
      })),
    })),
  };
}

function textsOf(file: BuildFile, table: TableName): unknown {
  if (table === 'tasks') return file.tasks.map(({ name, note, fixedWhy }) => [name, note, fixedWhy ?? '']);
  if (table === 'links') return file.links.map(({ reason }) => reason);
  if (table === 'hours') return file.hours.map(({ note }) => note);
  return file.purchases.map(({ supplier, lines }) => [
    supplier,
    lines.map(({ name, serial }) => [name, serial ?? '']),
  ]);
}

function failure(work: () => unknown) {
  try {
    work();
  } catch (error) {
    if (error instanceof PlanError) return { ...error.failure, message: error.message };
    throw error;
  }
  throw new Error('It was taken in');
}
