/** Tables as text: what other programs write is read, and what is written another reader of RFC 4180 reads too. */
import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { guarded, readTableText, unguarded, writeTableText } from '#shared/exchange/csv.ts';

const cellsOf = (text: string) => readTableText(text).rows.map(({ cells }) => cells);

describe('a table that is read', () => {
  it.each([
    ['commas', 'a,b\r\n1,"x, y"\r\n', ',', '1'],
    ['semicolons', 'a;b\n1;x, y\n', ';', '1'],
    ['tabs, as a pasted one', 'a\tb\n1,5\tx, y', '\t', '1,5'],
  ])('should be parted by %s', (_what, text, delimiter, first) => {
    expect(readTableText(text).delimiter).toBe(delimiter);
    expect(cellsOf(text)).toEqual([
      ['a', 'b'],
      [first, 'x, y'],
    ]);
  });

  it('should lose its byte order mark, which is no letter of the first column', () => {
    expect(cellsOf('\uFEFFname,unit\r\nhose,m')).toEqual([
      ['name', 'unit'],
      ['hose', 'm'],
    ]);
  });

  it('should keep commas, quotes and line ends within quotes', () => {
    expect(cellsOf('a,b\r\n"3/4"" elbow, brass","two\r\nlines"\r\n')[1]).toEqual([
      '3/4" elbow, brass',
      'two\r\nlines',
    ]);
  });

  it('should keep an inch mark that stands within a cell without quotes', () => {
    expect(cellsOf('a\tb\nhose 3/4"\t2')[1]).toEqual(['hose 3/4"', '2']);
  });

  it('should count rows as a spreadsheet does, blank ones too', () => {
    expect(readTableText('a,b\n\n1,2\n , \n3,4').rows.map(({ row }) => row)).toEqual([1, 3, 5]);
  });

  it('should say which row has a quote that never closes', () => {
    const { rows } = readTableText('a,b\n1,"x\n2,y');
    expect(rows.map(({ broken }) => broken)).toEqual([false, true]);
  });

  it('should be one column where nothing parts it, whatever stands in its cells', () => {
    expect(cellsOf('name\nelbow, 12 mm\nhose; black')).toEqual([['name'], ['elbow, 12 mm'], ['hose; black']]);
  });

  it('should be nothing where there is nothing', () => {
    for (const text of ['', '\uFEFF', '\r\n\r\n', ' \n\t\n']) expect(cellsOf(text)).toEqual([]);
  });
});

describe('a cell that a spreadsheet would run', () => {
  it.each(['=1+1', '+cmd', '-2+3', '@sum(a1)', '\t=1', '\r=1', '=HYPERLINK("x")', "'=1", '＝1+1', "''@x"])(
    'should be written with an apostrophe, and read back without: %j',
    (text) => {
      expect(guarded(text)).toBe(`'${text}`);
      expect(unguarded(guarded(text))).toBe(text);
    },
  );

  it.each(['-5', '+3', '-1.50', '2,5', "'tis", 'a=b', "o'clock", ''])('should be left alone: %j', (text) => {
    expect(guarded(text)).toBe(text);
    expect(unguarded(text)).toBe(text);
  });
});

describe('any table', () => {
  const text = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.string({ unit: fc.constantFrom(...`,;"'=+-@\t\r\n 1a\uFEFF`) }),
  );
  // A row of blanks is no row, so each has a cell with something in it.
  const rows = fc.array(fc.tuple(fc.constant('x'), text, text), { minLength: 1, maxLength: 8 });

  it('should come back as it was written, whatever stands in it', () => {
    fc.assert(
      fc.property(rows, (table) => {
        const whole = [['name', 'note', 'unit'], ...table];
        expect(cellsOf(writeTableText(whole))).toEqual(whole);
      }),
    );
  });

  it('should be read the same by another reader of RFC 4180, guards and all', () => {
    fc.assert(
      fc.property(rows, (table) => {
        const whole = [['name', 'note', 'unit'], ...table];
        const read = parse(writeTableText(whole), { bom: true, record_delimiter: '\r\n' });
        expect(read).toEqual(whole.map((row) => row.map(guarded)));
      }),
    );
  });

  it('should never have a cell that begins like a formula', () => {
    fc.assert(
      fc.property(rows, (table) => {
        const read = parse(writeTableText(table), { bom: true, record_delimiter: '\r\n' }) as string[][];
        for (const cell of read.flat())
          expect(/^[=+\-@\t\r]/.test(cell) && !/^[+-]?\d+([.,]\d+)?$/.test(cell)).toBe(false);
      }),
    );
  });
});
