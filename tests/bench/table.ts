/** Figures in columns, each with its aim beside it. Words stand left, numbers right. */

export function printTable(
  title: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): void {
  const widths = head.map((word, i) => Math.max(word.length, ...rows.map((row) => (row[i] ?? '').length)));
  const line = (cells: readonly string[], pad: string) =>
    cells
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]!, pad) : cell.padStart(widths[i]!, pad)))
      .join('  ');
  const lines = [
    line(head, ' '),
    line(
      widths.map(() => ''),
      '-',
    ),
    ...rows.map((row) => line(filled(row, head.length), ' ')),
  ];
  process.stdout.write(`\n${title}\n${lines.map((text) => `  ${text.trimEnd()}\n`).join('')}`);
}

/** Three digits that count: 0.0123, 1.23, 123. */
export function digits(value: number): string {
  if (value === 0) return '0';
  const places = Math.max(0, 2 - Math.floor(Math.log10(Math.abs(value))));
  return value.toFixed(Math.min(places, 6));
}

export function times(value: number): string {
  return `${value >= 100 ? Math.round(value).toLocaleString('en-GB') : value.toFixed(2)} ×`;
}

/** `≤ 2 ×, met`, or by how far it is not. */
export function atMost(aim: number, value: number, unit = ' ×'): string {
  return `≤ ${aim}${unit}, ${value <= aim ? 'met' : 'missed'}`;
}

export function atLeast(aim: number, value: number, unit = ' ×'): string {
  return `≥ ${aim.toLocaleString('en-GB')}${unit}, ${value >= aim ? 'met' : 'missed'}`;
}

// Helpers

function filled(row: readonly string[], length: number): string[] {
  return Array.from({ length }, (_, i) => row[i] ?? '');
}
