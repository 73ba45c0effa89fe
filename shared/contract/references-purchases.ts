/** Purchases: lines unique, references that lead somewhere, no more sent back than came, days in order, a state that agrees. */
import type { BuildFile } from './build-file.ts';
import type { Checker, Keys } from './checker.ts';
import type { Purchase } from './purchase.ts';
import { costOf, lineTotal } from '../money/cost.ts';

/** No line and no purchase comes to more, in minor units: beyond it lie slips of the pen, and sums that are not exact. */
const DEAREST = 1_000_000_000_000;

export function purchaseFaults(file: BuildFile, keys: Keys, check: Checker): void {
  file.purchases.forEach((purchase, i) => {
    const at = ['purchases', i];
    const lines = check.unique('lines', purchase.lines, ...at);
    purchase.lines.forEach((line, l) => {
      check.one(line.phase, keys.phases, 'phase', ...at, 'lines', l, 'phase');
      check.all(line.neededBy, keys.tasks, 'task', ...at, 'lines', l, 'neededBy');
      check.once(line.neededBy, 'task', ...at, 'lines', l, 'neededBy');
      priceFaults(line, [...at, 'lines', l], check);
    });
    purchase.deliveries.forEach(({ line }, d) =>
      check.one(line, lines, 'line', ...at, 'deliveries', d, 'line'),
    );
    purchase.returns.forEach(({ line }, r) => check.one(line, lines, 'line', ...at, 'returns', r, 'line'));
    purchase.payments.forEach(({ by }, p) =>
      check.one(by, keys.people, 'person', ...at, 'payments', p, 'by'),
    );
    sumFaults(purchase, file.build.currency, at, check);
    quantityFaults(purchase, at, check);
    stateFaults(purchase, at, check);
  });
}

function priceFaults(
  line: Purchase['lines'][number],
  at: readonly (string | number)[],
  check: Checker,
): void {
  const { unitPrice, priceLow, priceHigh } = line;
  const low = unitPrice ?? priceHigh;
  if (priceLow !== null && low !== null && priceLow > low)
    check.fault(
      [...at, 'priceLow'],
      `is ${priceLow}, more than ${unitPrice === null ? 'the high' : 'the unit'} price: it must be ${low} or less`,
    );
  if (priceHigh !== null && unitPrice !== null && priceHigh < unitPrice)
    check.fault(
      [...at, 'priceHigh'],
      `is ${priceHigh}, less than the unit price: it must be ${unitPrice} or more`,
    );
}

function sumFaults(purchase: Purchase, own: string, at: readonly (string | number)[], check: Checker): void {
  const { lines, discount } = purchase;
  const dear = lines.findIndex((line) => lineTotal(line) > DEAREST);
  if (dear >= 0) {
    check.fault(
      [...at, 'lines', dear, 'unitPrice'],
      'times the quantity comes to more than anything can cost: look at both again',
    );
    return;
  }
  const { total, byQuote, unpriced } = costOf(purchase, own);
  if (total > DEAREST)
    check.fault(
      [...at, 'rate'],
      'makes the purchase dearer than anything can be: look at rate and prices again',
    );
  if (discount > 0 && total < 0 && !byQuote && unpriced === 0)
    check.fault(
      [...at, 'discount'],
      'is more than the purchase comes to without it: it must be that or less',
    );
}

/** What went back must have come; more than was ordered may come. */
function quantityFaults(purchase: Purchase, at: readonly (string | number)[], check: Checker): void {
  for (const line of purchase.lines) {
    const sum = (list: readonly { line: string; quantity: number }[]) =>
      list.filter((entry) => entry.line === line.key).reduce((total, entry) => total + entry.quantity, 0);
    const [came, went] = [sum(purchase.deliveries), sum(purchase.returns)];
    if (went > came + 1e-9)
      check.fault(
        [...at, 'returns'],
        `give back ${went} of "${line.key}", but only ${came} came: it must be ${came} or less`,
      );
  }
}

function stateFaults(purchase: Purchase, at: readonly (string | number)[], check: Checker): void {
  const { state, orderedOn, promisedOn, leadDays, leadDaysBad, deliveries, quotes } = purchase;
  const before = state === 'wanted' || state === 'quoted';
  if (state === 'ordered' && orderedOn === null)
    check.fault([...at, 'orderedOn'], 'is null, but the purchase is ordered: it must say on which day');
  if (before && orderedOn !== null)
    check.fault(
      [...at, 'orderedOn'],
      `is set, but the purchase is only ${state}: leave it null or set state to ordered`,
    );
  if (before && deliveries.length > 0)
    check.fault(
      [...at, 'deliveries'],
      `are not empty, but the purchase is only ${state}: set state to part-received or received`,
    );
  check.order([...at, 'promisedOn'], orderedOn, promisedOn, 'it was ordered');
  deliveries.forEach(({ on }, d) =>
    check.order([...at, 'deliveries', d, 'on'], orderedOn, on, 'it was ordered'),
  );
  if (quotes.filter(({ chosen }) => chosen).length > 1)
    check.fault([...at, 'quotes'], 'have two chosen: choose one');
  if (leadDaysBad !== null && leadDaysBad < leadDays)
    check.fault(
      [...at, 'leadDaysBad'],
      `is ${leadDaysBad}, less than leadDays: it must be ${leadDays} or more`,
    );
}
