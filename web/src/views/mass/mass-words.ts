/** Masses as the sheet says them, and what stands beside a limit. Grams in, kilograms out; null is "not known". */
import type { LastWeighing, LoadOf, MassSum } from '#shared/contract/plan-mass.ts';

const THIN = '\u2009';
const NOT_KNOWN = 'not known';

/** "1 493", "8.1", "−52": whole kilograms from a hundred on, else with one decimal; no unit. */
export function kg(grams: number | null): string {
  if (grams === null || Number.isNaN(grams)) return NOT_KNOWN;
  const isSmall = Math.abs(grams) < 99_950;
  const text = Math.abs(grams / 1000)
    .toFixed(isSmall ? 1 : 0)
    .replace(/\.0$/, '');
  const [whole = '0', part] = text.split('.');
  const digits = whole.replace(/\B(?=(\d{3})+$)/g, THIN) + (part === undefined ? '' : `.${part}`);
  return `${grams < 0 && text !== '0' ? '−' : ''}${digits}`;
}

/** "1 493 kg", or "not known". */
export function kgUnit(grams: number | null): string {
  return grams === null ? NOT_KNOWN : `${kg(grams)}${THIN}kg`;
}

/** "+12", "−3", "0". */
export function signed(grams: number): string {
  return grams > 0 ? `+${kg(grams)}` : kg(grams);
}

/** "357 left", "99 left, near the limit", "12 over the limit", "limit not known". */
export function besideLimit({ limit, left, level }: LoadOf): string {
  if (limit === null) return 'limit not known';
  if (left === null || level === null) return '';
  if (level === 'over') return left === 0 ? 'at the limit' : `${kgUnit(-left)} over the limit`;
  return `${kgUnit(left)} left${level === 'near' ? ', near the limit' : ''}`;
}

export function percent(share: number | null): string {
  return share === null ? '' : `${Math.round(share * 100)}${THIN}%`;
}

export const READ_AS: Readonly<Record<LastWeighing['readAs'], string>> = {
  'as-delivered': 'the van as delivered with the parts fitted by then',
  empty: 'the van empty: without what was taken out, with the parts fitted by then',
  loaded: 'the van loaded: with people, water and everything carried',
};

/** What a change does to the sums as planned: one sentence. */
export function massEffect(before: MassSum, after: MassSum): string {
  const of = (name: string, one: LoadOf, two: LoadOf) =>
    one.load === two.load || two.load === null
      ? []
      : [`${name} ${one.load === null ? '' : `${kg(one.load)} → `}${kgUnit(two.load)}`];
  const moved = [
    ...of('in all', before.gross, after.gross),
    ...of('front', before.front, after.front),
    ...of('rear', before.rear, after.rear),
  ];
  if (moved.length === 0) {
    const parts = after.parts - before.parts;
    return parts === 0 ? 'Changes no load.' : `Parts as planned ${signed(parts)}${THIN}kg.`;
  }
  const left = after.gross.left === null ? '' : `; ${besideLimit(after.gross)}`;
  return `As planned ${moved.join(', ')}${left}.`;
}
