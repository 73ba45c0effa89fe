/**
 * What changed in a record, field by field, in words: fields by the name a builder gives them, times as hours, money
 * as money, keys as the names behind them. Lists are compared by what is in them, not by place.
 */
import { exactly, lengthScale, massScale, type Scale, type Units } from '../../drawing/units.ts';
import { capital, dayWords, duration, instantWords, list, money } from '../../drawing/words.ts';

type Json = unknown;
export type Fields = Readonly<Record<string, Json>>;

export interface ChangedField {
  /** "hours, likely", "check “leak test”, signed". */
  readonly field: string;
  /** '' where there was nothing. */
  readonly before: string;
  readonly after: string;
}

export interface Naming {
  readonly currency: string;
  readonly units: Units;
  /** The name behind a key that stands in a field called so; the key itself where nobody knows. */
  readonly nameOf: (field: string, key: string) => string;
}

const FIELD_WORDS: Readonly<Record<string, string>> = {
  minutes: 'hours',
  who: 'who may do it',
  people: 'people needed',
  shortestSitting: 'shortest sitting',
  waitMinutes: 'wait after it',
  waitConditions: 'conditions of the wait',
  waitHoldsZones: 'wait keeps its zones shut',
  reopenMinutes: 'hours to take off and put back',
  holdPoints: 'check',
  attempts: 'signed',
  steps: 'step',
  places: 'place',
  startedAt: 'begun',
  finishedAt: 'finished',
  hoursKnown: 'hours known',
  remainingMinutes: 'left to do',
  fixedStart: 'fixed date',
  fixedWhy: 'why it is fixed',
  lagMinutes: 'wait between',
  lagOn: 'the wait counts',
  leadDays: 'days in the post',
  leadDaysBad: 'days in the post, at worst',
  orderedOn: 'ordered',
  promisedOn: 'promised for',
  unitPrice: 'price',
  priceLow: 'lowest price',
  priceHigh: 'highest price',
  taxPercent: 'tax',
  shippingTaxPercent: 'tax of shipping',
  neededBy: 'needed by',
  lines: 'line',
  byNameOnly: 'only where named',
  rate: 'rate',
  week: 'week',
  exceptions: 'days that differ',
  startOn: 'first day',
  targetFinishOn: 'target',
  asOf: 'as-of date',
  contingencyPercent: 'kept back',
  moneyIn: 'money in',
  order: 'kept order',
  chosen: 'decided',
  locksTasks: 'tasks it locks',
  locksPurchases: 'purchases it locks',
};
/** Fields whose number is money in minor units, whatever their name ends with. */
const MONEY = new Set([
  'budget',
  'unitPrice',
  'priceLow',
  'priceHigh',
  'shipping',
  'discount',
  'amount',
  'refund',
  'monthly',
]);
const MASS = /^(mass|kerb\w+|grossMass|front|rear|frontAxle|rearAxle)$/;
const LENGTH = /^(x|y|z|size|wheelbase|track)$/;
const MINUTES = /minutes$|^shortestSitting$/i;
const DAY = /^\d{4}-\d{2}-\d{2}$/;
const INSTANT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/;
const STATES: Readonly<Record<string, string>> = {
  'not-started': 'not started',
  'part-received': 'partly received',
};
/** Longer texts are cut: the whole stands in the record. */
const LONGEST = 160;

/** Fields that differ, in the order of the record; none where one of the two is missing. */
export function changedFields(before: Fields | null, after: Fields | null, naming: Naming): ChangedField[] {
  if (before === null || after === null) return [];
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((name) =>
    differences(name, [fieldWords(name)], before[name] ?? null, after[name] ?? null, naming),
  );
}

function differences(
  name: string,
  path: readonly string[],
  before: Json,
  after: Json,
  naming: Naming,
): ChangedField[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  const field = path.join(', ');
  if (isFields(before) && isFields(after))
    return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((part) =>
      differences(
        MINUTES.test(name) ? name : part,
        [...path, fieldWords(part)],
        before[part] ?? null,
        after[part] ?? null,
        naming,
      ),
    );
  if (Array.isArray(before) && Array.isArray(after))
    return listDifferences(name, path, before, after, naming);
  return [{ field, before: valueWords(name, before, naming), after: valueWords(name, after, naming) }];
}

function listDifferences(
  name: string,
  path: readonly string[],
  before: readonly Json[],
  after: readonly Json[],
  naming: Naming,
): ChangedField[] {
  const field = path.join(', ');
  if (![...before, ...after].every(isFields)) {
    const gone = before.filter((one) => !includes(after, one));
    const come = after.filter((one) => !includes(before, one));
    const words = (items: readonly Json[]) => list(items.map((one) => valueWords(name, one, naming)));
    if (gone.length + come.length === 0)
      return [
        {
          field,
          before: 'in another order',
          after: words(after.slice(0, 5)) + (after.length > 5 ? ' …' : ''),
        },
      ];
    return [{ field, before: words(gone), after: words(come) }];
  }
  const was = numbered(before as readonly Fields[]);
  const is = numbered(after as readonly Fields[]);
  return [...new Set([...was.keys(), ...is.keys()])].flatMap((id) => {
    const [a, b] = [was.get(id) ?? null, is.get(id) ?? null];
    const label = `${field} ${itemWords(name, (b ?? a)!, naming)}`;
    if (a === null || b === null)
      return [{ field: label, before: a === null ? '' : 'there', after: b === null ? 'taken out' : 'added' }];
    return changedFields(a, b, naming).map((one) => ({ ...one, field: `${label}, ${one.field}` }));
  });
}

/** List items by what tells them apart: their key, else all they say. */
function numbered(items: readonly Fields[]): Map<string, Fields> {
  return new Map(
    items.map((item): [string, Fields] => [
      typeof item['key'] === 'string' ? item['key'] : JSON.stringify(item),
      item,
    ]),
  );
}

function itemWords(list: string, item: Fields, naming: Naming): string {
  if (typeof item['zone'] === 'string' && typeof item['depth'] === 'string')
    return (
      [naming.nameOf('zone', item['zone']), naming.nameOf('depth', item['depth'])].join(', ') +
      (typeof item['hides'] === 'string' ? `, hides ${naming.nameOf('hides', item['hides'])}` : '')
    );
  const name = item['name'] ?? item['text'] ?? item['question'] ?? item['what'];
  if (typeof name === 'string') return `“${name}”`;
  if (list === 'attempts')
    return `${valueWords('at', item['at'], naming)} by ${valueWords('by', item['by'], naming)}${item['pass'] === true ? '' : ', failed'}${typeof item['reading'] === 'string' ? `, ${item['reading']}` : ''}`;
  return Object.entries(item)
    .filter(([, value]) => value !== null && value !== '' && typeof value !== 'object')
    .map(([field, value]) => valueWords(field, value, naming))
    .join(', ');
}

/** "fixed date", "quantity"; unknown names are taken apart at their capitals. */
export function fieldWords(name: string): string {
  return (
    FIELD_WORDS[name] ??
    name.replace(/([a-z])([A-Z])/g, (_, end: string, start: string) => `${end} ${start.toLowerCase()}`)
  );
}

export function valueWords(field: string, value: Json, naming: Naming): string {
  if (value === null || value === undefined || value === '') return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') {
    if (MONEY.has(field)) return money(value, naming.currency, { exact: true });
    if (MINUTES.test(field)) return duration(value);
    if (/percent$/i.test(field)) return `${value} %`;
    if (/days(bad)?$/i.test(field)) return `${value} d`;
    if (MASS.test(field)) return inUnits(value, massScale(naming.units));
    if (LENGTH.test(field)) return inUnits(value, lengthScale(naming.units));
    return String(value);
  }
  if (typeof value === 'string') {
    if (DAY.test(value)) return dayWords(value, '');
    if (INSTANT.test(value)) return instantWords(value, '');
    const named = STATES[value] ?? naming.nameOf(field, value);
    return named.length > LONGEST ? `${named.slice(0, LONGEST)}…` : named;
  }
  if (Array.isArray(value))
    return value.length === 0
      ? 'none'
      : list(
          value.map((one) =>
            isFields(one) ? itemWords(field, one, naming) : valueWords(field, one, naming),
          ),
        );
  return capital(
    Object.entries(value as Fields)
      .map(
        ([part, one]) => `${fieldWords(part)} ${valueWords(MINUTES.test(field) ? field : part, one, naming)}`,
      )
      .join(', '),
  );
}

function inUnits(stored: number, scale: Scale): string {
  return `${exactly(stored, scale)} ${scale.symbol}`;
}

function isFields(value: Json): value is Fields {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function includes(items: readonly Json[], item: Json): boolean {
  const text = JSON.stringify(item);
  return items.some((one) => JSON.stringify(one) === text);
}
