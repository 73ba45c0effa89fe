/** Purchases: lines unique, references that lead somewhere, no more received or sent back than there was. */
import type { BuildFile } from './build-file.ts';
import type { Checker, Keys } from './checker.ts';
import type { Purchase } from './purchase.ts';

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
  if (unitPrice !== null && priceLow !== null && priceLow > unitPrice)
    check.fault(
      [...at, 'priceLow'],
      `${priceLow} is more than the unit price ${unitPrice}: it must be ${unitPrice} or less`,
    );
  if (unitPrice !== null && priceHigh !== null && priceHigh < unitPrice)
    check.fault(
      [...at, 'priceHigh'],
      `${priceHigh} is less than the unit price ${unitPrice}: it must be ${unitPrice} or more`,
    );
}

function quantityFaults(purchase: Purchase, at: readonly (string | number)[], check: Checker): void {
  for (const line of purchase.lines) {
    const sum = (list: readonly { line: string; quantity: number }[]) =>
      list.filter((entry) => entry.line === line.key).reduce((total, entry) => total + entry.quantity, 0);
    const [came, went] = [sum(purchase.deliveries), sum(purchase.returns)];
    if (went > came + 1e-9)
      check.fault(
        [...at, 'returns'],
        `send back ${went} of "${line.key}", but only ${came} came: it must be ${came} or less`,
      );
  }
}

function stateFaults(purchase: Purchase, at: readonly (string | number)[], check: Checker): void {
  const { state, orderedOn, promisedOn, leadDays, leadDaysBad } = purchase;
  if (state === 'ordered' && orderedOn === null)
    check.fault([...at, 'orderedOn'], 'is null, but the purchase is ordered: it must say on which day');
  check.order([...at, 'promisedOn'], orderedOn, promisedOn, 'it was ordered');
  if (leadDaysBad !== null && leadDaysBad < leadDays)
    check.fault(
      [...at, 'leadDaysBad'],
      `${leadDaysBad} is less than leadDays (${leadDays}): it must be ${leadDays} or more`,
    );
}
