/** The few questions every reference check asks, each answered with a fault that says what would be right. */
import type { FieldFault } from '../errors.ts';
import { pointer } from './pointer.ts';

type Step = string | number;

/** The keys of each list of a build. */
export interface Keys {
  readonly people: ReadonlySet<string>;
  readonly tools: ReadonlySet<string>;
  readonly conditions: ReadonlySet<string>;
  readonly depths: ReadonlySet<string>;
  readonly zones: ReadonlySet<string>;
  readonly zoneGroups: ReadonlySet<string>;
  readonly phases: ReadonlySet<string>;
  readonly tasks: ReadonlySet<string>;
  readonly purchases: ReadonlySet<string>;
  readonly decisions: ReadonlySet<string>;
  readonly baselines: ReadonlySet<string>;
}

export class Checker {
  readonly faults: FieldFault[] = [];

  fault(at: readonly Step[], detail: string): void {
    this.faults.push({ pointer: pointer(...at), detail });
  }

  /** Keys of a list, none twice. */
  unique(list: string, records: readonly { key: string | null }[], ...inside: readonly Step[]): Set<string> {
    const seen = new Map<string, number>();
    records.forEach(({ key }, i) => {
      if (key === null) return;
      const first = seen.get(key);
      if (first === undefined) seen.set(key, i);
      else {
        const taken = pointer(...inside, list, first);
        this.fault([...inside, list, i, 'key'], `"${key}" is taken by ${taken}: each needs a key of its own`);
      }
    });
    return new Set(seen.keys());
  }

  /** No value twice in a list. */
  once(values: readonly string[], what: string, ...at: readonly Step[]): void {
    const seen = new Set<string>();
    values.forEach((value, i) => {
      if (seen.has(value)) this.fault([...at, i], `"${value}" stands twice: name each ${what} once`);
      seen.add(value);
    });
  }

  /** The key leads to a record; null leads nowhere and is fine. */
  one(key: string | null, known: ReadonlySet<string>, what: string, ...at: readonly Step[]): void {
    if (key === null || known.has(key)) return;
    this.fault(at, `there is no ${what} "${key}"${nearest(key, known)}`);
  }

  all(list: readonly string[], known: ReadonlySet<string>, what: string, ...at: readonly Step[]): void {
    list.forEach((key, i) => this.one(key, known, what, ...at, i));
  }

  /** `later` is not before `earlier` (both written dates or instants; null is fine). */
  order(at: readonly Step[], earlier: string | null, later: string | null, what: string): void {
    if (earlier === null || later === null || later >= earlier) return;
    this.fault(at, `${later} is before ${what} on ${earlier}: it must be ${earlier} or later`);
  }
}

/** A short list of what there is, when there is little of it. */
function nearest(key: string, known: ReadonlySet<string>): string {
  const close = [...known].filter((name) => name.startsWith(key.slice(0, 3))).slice(0, 5);
  const named = close.length > 0 ? close : known.size <= 12 ? [...known] : [];
  return named.length > 0 ? `; it must be one there is, such as ${named.join(', ')}` : '; name one there is';
}
