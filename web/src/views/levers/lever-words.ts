/** What a lever wins and costs, in words. */
import type { Lever } from '#shared/levers/levers.ts';
import { count, grouped, hours, money } from '../../drawing/words.ts';

/** "wins 12 days", "loses 3 days", "wins nothing", "not known" */
export function wonWords(days: number | null): string {
  if (days === null) return 'not known';
  if (days === 0) return 'nothing';
  return days > 0 ? count(days, 'day') : `loses ${count(-days, 'day')}`;
}

/** "181 h, 2.5 h a week", "saves 63 h and € 428", "nothing" */
export function costWords({ asks, costs }: Lever, currency: string): string {
  const paid = [
    ...(costs.minutes > 0
      ? [`${hours(costs.minutes)} h${asks.weekly > 0 ? `, ${hours(asks.weekly)} h a week` : ''}`]
      : []),
    ...(costs.money > 0 ? [money(costs.money, currency)] : []),
  ];
  const saved = [
    ...(costs.minutes < 0 ? [`${hours(-costs.minutes)} h`] : []),
    ...(costs.money < 0 ? [money(-costs.money, currency)] : []),
  ];
  const words = [
    ...(paid.length === 0 ? [] : [paid.join(' and ')]),
    ...(saved.length === 0 ? [] : [`saves ${saved.join(' and ')}`]),
  ];
  return words.length === 0 ? 'nothing' : words.join(', ');
}

/** What a day that is won costs, where something is paid for it: "1.8 h a day won"; '' otherwise. */
export function priceWords({ daysWon: { p80 }, costs }: Lever, currency: string): string {
  if (p80 === null || p80 <= 0) return '';
  const each = [
    ...(costs.minutes > 0 ? [`${grouped(Math.max(1, Math.round(costs.minutes / 60 / p80)))} h`] : []),
    ...(costs.money > 0 ? [money(costs.money / p80, currency)] : []),
  ];
  return each.length === 0 ? '' : `${each.join(' and ')} for each day won`;
}

/** Does it win a day on either date? */
export function winsSomething({ daysWon: { plan, p80 } }: Lever): boolean {
  return (p80 ?? 0) > 0 || ((plan ?? 0) > 0 && (p80 ?? 0) >= 0);
}

/** What stands under the label of some. */
export function noteWords({ kind, daysWon: { plan, p80 } }: Lever): string {
  const isHands = kind === 'helper' || kind === 'person' || kind === 'evening';
  if (isHands && (plan ?? 0) > 0 && (p80 ?? -1) < 0)
    return 'It wins if all goes to plan. The trials keep who does what, so work that slips waits for these hands.';
  if (isHands && p80 === null) return 'In some trials the work slips until this help is gone.';
  switch (kind) {
    case 'order':
      return 'The plan orders it today: this is what a week of waiting would lose.';
    case 'sooner':
      return 'If it can be had that fast, from another place or by another way.';
    case 'helper':
    case 'person':
      return 'Somebody who can do all that you can.';
    default:
      return '';
  }
}
