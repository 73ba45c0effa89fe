/** One line that tells a thing from its neighbours in a list: its name, or its day and amount. */
import { dayWords, money } from '../drawing/words.ts';
import type { FormContext, Holder } from './form-model.ts';

export function summaryOf(one: Holder, { currency, now }: Pick<FormContext, 'currency' | 'now'>): string {
  const text = (name: string) => (typeof one[name] === 'string' ? (one[name] as string) : '');
  const name = text('name') || text('text') || text('what') || text('question') || text('supplier');
  const day = text('on') || text('at') || text('from');
  const parts = [name, day === '' ? '' : day.length === 7 ? day : dayWords(day.slice(0, 10), now.day)];
  if (isRead(one['quantity'])) parts.push(`${one['quantity']} ${text('unit')}`.trim());
  const sum = one['amount'] ?? one['unitPrice'] ?? one['monthly'];
  if (isRead(sum)) parts.push(money(sum, currency, { exact: true }));
  return parts.filter((part) => part !== '').join(', ') || 'new';
}

/** A number; while what is typed cannot be read there is none. */
function isRead(value: unknown): value is number {
  return typeof value === 'number' && !Number.isNaN(value);
}
