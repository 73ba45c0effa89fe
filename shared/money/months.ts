/** Months written `2026-06`, counted so that they can be walked. */

export function monthOf(day: string): string {
  return day.slice(0, 7);
}

/** Months since the year 0. */
export function monthNumber(month: string): number {
  return Number(month.slice(0, 4)) * 12 + Number(month.slice(5, 7)) - 1;
}

export function monthText(number: number): string {
  return `${String(Math.floor(number / 12)).padStart(4, '0')}-${String((number % 12) + 1).padStart(2, '0')}`;
}
