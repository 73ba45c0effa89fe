/**
 * Who paid what, and who owes whom. Those who build it together share in equal parts what any of them paid; a helper or
 * licensed trade who paid for something gets it back. What nobody is named for came from the common purse.
 */
import type { BuildFile } from '../contract/build-file.ts';
import type { Partners } from '../contract/plan-money.ts';
import { dayNumber, dayText, weekdayOf } from '../time/days.ts';
import type { Booked } from './booked.ts';
import type { PaymentMove } from './moves.ts';
import { spread } from './rounding.ts';

/** Balances sum to zero. */
export function partnersOf(file: Pick<BuildFile, 'people'>, booked: readonly Booked[]): Partners {
  const moves = allMoves(booked);
  const paid = new Map<string, number>();
  const weeks = new Map<string, Map<string, number>>();
  for (const { by, on: day, amount } of moves) {
    if (by === null) continue;
    paid.set(by, (paid.get(by) ?? 0) + amount);
    const monday = dayText(dayNumber(day) - weekdayOf(dayNumber(day)));
    const week = weeks.get(monday) ?? new Map<string, number>();
    weeks.set(monday, week);
    week.set(by, (week.get(by) ?? 0) + amount);
  }
  const sharing = file.people
    .filter(({ byNameOnly }) => !byNameOnly)
    .map(({ key }) => key)
    .sort();
  const partners = sharing.length > 0 ? sharing : [...paid.keys()].sort();
  const inIt = file.people
    .map(({ key }) => key)
    .sort()
    .filter((key) => partners.includes(key) || paid.has(key));
  const shares = new Map<string, number>();
  spread(
    [...paid.values()].reduce((sum, amount) => sum + amount, 0),
    partners.map(() => 1),
  ).forEach((share, i) => shares.set(partners[i]!, share));
  const people = inIt.map((person) => ({
    person,
    paid: paid.get(person) ?? 0,
    share: shares.get(person) ?? 0,
    balance: (paid.get(person) ?? 0) - (shares.get(person) ?? 0),
  }));
  return {
    people,
    purse: moves.filter(({ by }) => by === null).reduce((sum, { amount }) => sum + amount, 0),
    settle: settle(people),
    weeks: [...weeks.keys()].sort().map((monday) => ({
      monday,
      paid: Object.fromEntries([...weeks.get(monday)!].sort(([a], [b]) => (a < b ? -1 : 1))),
    })),
  };
}

/** Payments up to the day, and refunds to those who had paid, in proportion. */
function allMoves(booked: readonly Booked[]): PaymentMove[] {
  return booked.flatMap(({ moves: { paid, refunded } }) => [
    ...paid,
    ...refunded.flatMap(({ on, amount }): PaymentMove[] => {
      if (paid.length === 0) return [{ by: null, on: on!, amount: -amount }];
      const parts = spread(
        amount,
        paid.map((one) => one.amount),
      );
      return paid.map(({ by }, i) => ({ by, on: on!, amount: -parts[i]! }));
    }),
  ]);
}

/** The fewest payments a plain rule finds: whoever owes most pays whoever is owed most. Ties go by key. */
function settle(people: Partners['people']): Partners['settle'] {
  const left = people.map(({ person, balance }) => ({ person, balance }));
  const payments: Partners['settle'] = [];
  for (let n = 0; n < left.length; n++) {
    const owes = left.reduce((a, b) => (b.balance < a.balance ? b : a), left[0]!);
    const owed = left.reduce((a, b) => (b.balance > a.balance ? b : a), left[0]!);
    const amount = Math.min(-owes.balance, owed.balance);
    if (amount <= 0) break;
    payments.push({ from: owes.person, to: owed.person, amount });
    owes.balance += amount;
    owed.balance -= amount;
  }
  return payments;
}
