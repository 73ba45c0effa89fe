/** A receipt being typed. It stands in the device's memory until it is put in or left: a call or a reload loses nothing. */
import type { ReceiptRow } from '#shared/purchases/receipt.ts';

export interface TypedRow extends ReceiptRow {
  readonly id: number;
}

interface Typed {
  readonly shop: string;
  readonly on: string | null;
  readonly by: string | null | undefined;
  readonly rows: readonly TypedRow[];
  /** The row at hand, not added yet. */
  readonly name: string;
  readonly phase: string | null;
  /** The paper, photographed and stored. */
  readonly file: string | null;
}

const EMPTY: Typed = { shop: '', on: null, by: undefined, rows: [], name: '', phase: null, file: null };

export class TypedReceipt {
  readonly #at: string;
  value: Typed = $state.raw(EMPTY);

  constructor(build: string) {
    this.#at = `coverlast-receipt-${build}`;
    this.value = { ...EMPTY, ...read(this.#at) };
  }

  set(some: Partial<Typed>): void {
    this.value = { ...this.value, ...some };
    try {
      localStorage.setItem(this.#at, JSON.stringify(this.value));
    } catch {
      // No room, or none allowed: it is then kept only while the page is open.
    }
  }

  add(row: ReceiptRow): void {
    const id = this.value.rows.reduce((most, one) => Math.max(most, one.id), 0) + 1;
    this.set({ rows: [...this.value.rows, { ...row, id }], name: '' });
  }

  drop(id: number): void {
    this.set({ rows: this.value.rows.filter((row) => row.id !== id) });
  }

  clear(): void {
    this.set(EMPTY);
  }

  get empty(): boolean {
    const { rows, name, shop, file } = this.value;
    return rows.length === 0 && name.trim() === '' && shop.trim() === '' && file === null;
  }
}

function read(at: string): Partial<Typed> {
  try {
    return (JSON.parse(localStorage.getItem(at) ?? '{}') ?? {}) as Partial<Typed>;
  } catch {
    return {};
  }
}
