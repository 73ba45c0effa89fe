/** Masses as the sheet says them, and what stands beside a limit. Grams in, the units of the build out; null is "not known". */
import type { LastWeighing, LoadOf, MassSum } from '#shared/contract/plan-mass.ts';
import { massFigure, massScale, massWords, type Units } from '../../drawing/units.ts';

const THIN = '\u2009';

/** "+12", "−3", "0". */
export function signed(grams: number, units: Units): string {
  return grams > 0 ? `+${massFigure(grams, units)}` : massFigure(grams, units);
}

/** "357 left", "99 left, near the limit", "12 over the limit", "limit not known". */
export function besideLimit({ limit, left, level }: LoadOf, units: Units): string {
  if (limit === null) return 'limit not known';
  if (left === null || level === null) return '';
  if (level === 'over') return left === 0 ? 'at the limit' : `${massWords(-left, units)} over the limit`;
  return `${massWords(left, units)} left${level === 'near' ? ', near the limit' : ''}`;
}

export function percent(share: number | null): string {
  return share === null ? '' : `${Math.round(share * 100)}${THIN}%`;
}

/** What was aboard at a weighing: with the parts fitted by then. */
export const READ_AS: Readonly<Record<LastWeighing['readAs'], string>> = {
  'as-delivered': 'the van as delivered with the parts fitted by then',
  empty: 'the van empty: without what was taken out, with the parts fitted by then',
  loaded: 'the van loaded: with people, water and everything carried',
};

/** The same as answers to "What was aboard?". */
export const ABOARD_WORDS: Readonly<Record<LastWeighing['readAs'], string>> = {
  'as-delivered': 'as delivered: nothing taken out yet',
  empty: 'empty: what was to go is out',
  loaded: 'loaded: people, water and everything carried',
};

/** "Read as the van empty: …, as was said." */
export function readAsWords({ readAs, told, difference }: LastWeighing): string {
  const why = told ? 'as was said' : difference === null ? 'for nobody said' : 'which comes nearest';
  return `Read as ${READ_AS[readAs]}; ${why}.`;
}

/** What a change does to the sums as planned: one sentence. */
export function massEffect(before: MassSum, after: MassSum, units: Units): string {
  const of = (name: string, one: LoadOf, two: LoadOf) =>
    one.load === two.load || two.load === null
      ? []
      : [
          `${name} ${one.load === null ? '' : `${massFigure(one.load, units)} → `}${massWords(two.load, units)}`,
        ];
  const moved = [
    ...of('in all', before.gross, after.gross),
    ...of('front', before.front, after.front),
    ...of('rear', before.rear, after.rear),
  ];
  if (moved.length === 0) {
    const parts = after.parts - before.parts;
    return parts === 0
      ? 'Changes no load.'
      : `Parts as planned ${signed(parts, units)}${THIN}${massScale(units).symbol}.`;
  }
  const left = after.gross.left === null ? '' : `; ${besideLimit(after.gross, units)}`;
  return `As planned ${moved.join(', ')}${left}.`;
}
