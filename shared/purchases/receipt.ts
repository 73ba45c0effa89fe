/**
 * One shop trip as one purchase: everything on the receipt is in hand and paid. Its prices are read off paper, so they
 * are confirmed, tax and all.
 */
import { withDefaults } from '../contract/defaults.ts';
import type { SchemaNode } from '../contract/faults.ts';
import { Purchase } from '../contract/purchase.ts';
import { rounded } from '../money/rounding.ts';

export interface ReceiptRow {
  readonly name: string;
  readonly quantity: number;
  /** Of one, minor units of the build's currency, tax included. */
  readonly unitPrice: number;
  readonly phase: string | null;
  /** Of the whole row, grams. */
  readonly mass: number | null;
}

export interface Receipt {
  readonly shop: string;
  readonly on: string;
  /** Who paid; null: nobody is named. */
  readonly by: string | null;
  readonly rows: readonly ReceiptRow[];
  /** The paper itself, a stored file; null: not photographed. */
  readonly file: string | null;
}

export function sumOfReceipt(rows: readonly Pick<ReceiptRow, 'quantity' | 'unitPrice'>[]): number {
  return rows.reduce((sum, { quantity, unitPrice }) => sum + rounded(quantity * unitPrice), 0);
}

/** @param key of the new purchase */
export function purchaseOfReceipt({ shop, on, by, rows, file }: Receipt, key: string): Purchase {
  const lines = rows.map((row, i) => ({ key: `l${i + 1}`, ...row, priceConfirmed: true }));
  const sum = sumOfReceipt(rows);
  return withDefaults(Purchase as unknown as SchemaNode, {
    key,
    supplier: shop,
    state: 'received',
    orderedOn: on,
    lines,
    deliveries: lines.map((line) => ({ on, line: line.key, quantity: line.quantity })),
    receipts: file === null ? [] : [file],
    payments: sum === 0 ? [] : [{ on, amount: sum, by, kind: 'full' }],
  }) as Purchase;
}
