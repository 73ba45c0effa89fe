/** Two finishes as a drawing: both bars from today on one axis, the target behind them, the days between as a dimension. */
import { dayNumber, dayText } from '#shared/time/days.ts';
import { MONTHS } from '../../drawing/words.ts';

export interface RaceRow {
  readonly name: string;
  /** Instants or days; null where there is none. */
  readonly finish: string | null;
  readonly fourInFive: string | null;
}

export interface Race {
  readonly x: (day: string) => number;
  /** First days of months, those of a year marked. */
  readonly ticks: readonly { readonly x: number; readonly word: string; readonly isYear: boolean }[];
}

/** @param left px before today. @param right px kept free behind the last mark */
export function raceOf(
  rows: readonly RaceRow[],
  { today, target }: { readonly today: string; readonly target: string | null },
  { width, left, right }: { readonly width: number; readonly left: number; readonly right: number },
): Race {
  const from = dayNumber(today.slice(0, 10));
  const days = [target, ...rows.flatMap(({ finish, fourInFive }) => [finish, fourInFive])].flatMap((day) =>
    day === null ? [] : [dayNumber(day.slice(0, 10))],
  );
  const to = Math.max(from + 28, ...days);
  const scale = (width - left - right) / (to - from);
  const at = (day: number) => left + (day - from) * scale;
  return { x: (day) => at(dayNumber(day.slice(0, 10))), ticks: ticksOf(from, to, scale, at) };
}

/** Every month, or every third, or every year, whichever leaves room for its word. */
function ticksOf(from: number, to: number, scale: number, at: (day: number) => number): Race['ticks'] {
  const step = scale * 30 > 34 ? 1 : scale * 91 > 34 ? 3 : 12;
  const [year, month] = dayText(from).split('-').map(Number) as [number, number];
  const ticks: { x: number; word: string; isYear: boolean }[] = [];
  for (let n = year * 12 + month; ; n++) {
    const [y, m] = [Math.floor(n / 12), n % 12];
    const day = dayNumber(`${y}-${String(m + 1).padStart(2, '0')}-01`);
    if (day > to) return ticks;
    if (m % step === 0) ticks.push({ x: at(day), word: m === 0 ? String(y) : MONTHS[m]!, isYear: m === 0 });
  }
}
