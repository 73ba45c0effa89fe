/**
 * A form made of a schema: what kind of field each property is, what it is called, and what a new one begins as. The
 * kind comes from the schema itself; that a number counts cents, minutes or grams is read from its description, the same
 * words a reader sees when the value is refused.
 */
import { KEY_PATTERN } from '#shared/contract/common.ts';
import { withDefaults } from '#shared/contract/defaults.ts';
import type { SchemaNode } from '#shared/contract/faults.ts';
import type { NounName } from '#shared/contract/nouns.ts';
import type { Units } from '../drawing/units.ts';

export { keyFor } from '#shared/contract/new-key.ts';
import { wordsOf } from './field-words.ts';

/** The parts of a JSON Schema this form reads. */
export type Node = SchemaNode & {
  readonly enum?: readonly string[];
  readonly const?: unknown;
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
};

export type MeasureName = 'minutes' | 'wait' | 'money' | 'grams' | 'millimetres' | 'whole';

/** What a key leads to: a list of the build, or something of the record itself. */
export type Refers = NounName | 'own lines' | 'own options' | 'depths of the zone';

export type FieldKind =
  | { readonly kind: 'line' | 'text' | 'decimal' | 'flag' | 'hatch' | 'fixed' }
  | { readonly kind: 'day' | 'instant' | 'month' | 'window' | 'windows' | 'yearly' | 'words' | 'week' }
  | { readonly kind: 'measure'; readonly measure: MeasureName }
  | { readonly kind: 'choice'; readonly words: readonly string[] }
  | { readonly kind: 'key' | 'keys'; readonly of: Refers }
  | { readonly kind: 'object'; readonly fields: readonly Field[] }
  | { readonly kind: 'list' | 'record'; readonly item: Field }
  | { readonly kind: 'sizes'; readonly items: readonly Field[] }
  | { readonly kind: 'either'; readonly options: readonly Field[] };

export interface Field {
  readonly name: string;
  readonly label: string;
  readonly hint: string;
  /** May be null. */
  readonly optional: boolean;
  readonly node: Node;
  readonly is: FieldKind;
}

/** What new values begin with. */
export interface Now {
  readonly day: string;
  readonly instant: string;
}

export type Holder = Readonly<Record<string, unknown>>;

export interface Option {
  readonly key: string;
  readonly name: string;
}

/** What a field has to know of the form around it. */
export interface FormContext {
  readonly options: (of: Refers, holder: Holder) => readonly Option[];
  readonly currency: string;
  readonly units: Units;
  readonly now: Now;
  /** What is wrong at a path of the record; '' when nothing is. */
  readonly fault: (path: readonly (string | number)[]) => string;
}

const REFERS: Readonly<Record<string, Refers>> = {
  phase: 'phases',
  neededBy: 'tasks',
  task: 'tasks',
  inner: 'tasks',
  cover: 'tasks',
  from: 'tasks',
  to: 'tasks',
  locksTasks: 'tasks',
  locksPurchases: 'purchases',
  zone: 'zones',
  zones: 'zones',
  depth: 'depths of the zone',
  hides: 'depths of the zone',
  depths: 'depths',
  person: 'people',
  by: 'people',
  who: 'people',
  tools: 'tools',
  conditions: 'conditions',
  waitConditions: 'conditions',
  line: 'own lines',
};

/**
 * The fields of an object's schema: what it is called first, the rest in its order, what nobody types last. A number
 * that the store gives is nothing to read.
 *
 * @param of the list or field the object stands in, for its own words
 */
export function fieldsOf(schema: object, of: string): Field[] {
  const fields = Object.entries((schema as Node).properties ?? {}).map(([name, node]) =>
    fieldOf(name, node as Node, of),
  );
  const rank = ({ name, is }: Field) =>
    name === 'name' || name === 'what' ? 0 : is.kind === 'fixed' ? 2 : 1;
  return fields
    .filter(({ name, optional }) => name !== 'key' || !optional)
    .toSorted((a, b) => rank(a) - rank(b));
}

export function fieldOf(name: string, node: Node, noun: string): Field {
  const [inner, optional] = withoutNull(node);
  const { label, hint } = wordsOf(noun, name);
  return { name, label, hint, optional, node, is: kindOf(name, inner, noun) };
}

function withoutNull(node: Node): [Node, boolean] {
  const options = (node.anyOf ?? []) as readonly Node[];
  const real = options.filter(({ type }) => type !== 'null');
  if (real.length === options.length) return [node, false];
  return [real.length === 1 ? real[0]! : { ...node, anyOf: real }, true];
}

function kindOf(name: string, node: Node, noun: string): FieldKind {
  if (name === 'key' || name === 'file' || name === 'photo') return { kind: 'fixed' };
  if (name === 'hatch') return { kind: 'hatch' };
  if (name === 'week') return { kind: 'week' };
  if (name === 'chosen' && node.type === 'string') return { kind: 'key', of: 'own options' };
  if (node.anyOf !== undefined)
    return { kind: 'either', options: node.anyOf.map((one) => fieldOf(name, one as Node, noun)) };
  if (node.enum !== undefined) return { kind: 'choice', words: node.enum };
  switch (node.type) {
    case 'boolean':
      return { kind: 'flag' };
    case 'integer':
      return { kind: 'measure', measure: measureOf(name, node.description ?? '') };
    case 'number':
      return { kind: 'decimal' };
    case 'object':
      return objectKind(name, node, noun);
    case 'array':
      return arrayKind(name, node, noun);
    default:
      return textKind(name, node);
  }
}

function measureOf(name: string, description: string): MeasureName {
  if (/minor units/.test(description)) return 'money';
  if (/minutes/.test(description)) return /^(wait|lag)/.test(name) ? 'wait' : 'minutes';
  if (/of grams/.test(description)) return 'grams';
  return /of millimetres/.test(description) ? 'millimetres' : 'whole';
}

function objectKind(name: string, node: Node, noun: string): FieldKind {
  const [named] = Object.values(node.patternProperties ?? {}) as Node[];
  if (named !== undefined) return { kind: 'record', item: fieldOf(name, named, noun) };
  return { kind: 'object', fields: fieldsOf(node, name) };
}

function arrayKind(name: string, node: Node, noun: string): FieldKind {
  if (Array.isArray(node.items))
    return {
      kind: 'sizes',
      items: (node.items as readonly Node[]).map((item, i) =>
        fieldOf(['x', 'y', 'z'][i] ?? `${i}`, item, noun),
      ),
    };
  const item = (node.items ?? {}) as Node;
  if (item.pattern === KEY_PATTERN)
    return name in REFERS ? { kind: 'keys', of: REFERS[name]! } : { kind: 'words' };
  if (item.format === 'day-window') return { kind: 'windows' };
  if (item.type === 'string' && item.format !== 'yearly-range') return { kind: 'words' };
  return { kind: 'list', item: fieldOf(name, item, noun) };
}

const FORMATS: Readonly<Record<string, FieldKind>> = {
  'local-day': { kind: 'day' },
  'local-instant': { kind: 'instant' },
  'local-month': { kind: 'month' },
  'day-window': { kind: 'window' },
  'yearly-range': { kind: 'yearly' },
  'plain-text': { kind: 'text' },
};

/** Texts that may have lines but are one in practice; so are the short ones. */
const ONE_LINE = new Set(['supplier', 'vehicle', 'why']);
const SHORT = 500;

function textKind(name: string, { pattern, format, maxLength = Infinity }: Node): FieldKind {
  if (pattern === KEY_PATTERN && name in REFERS) return { kind: 'key', of: REFERS[name]! };
  if (format === 'plain-text' && (ONE_LINE.has(name) || maxLength <= SHORT)) return { kind: 'line' };
  return FORMATS[format ?? ''] ?? { kind: 'line' };
}

/** What a new value of this schema begins as; keys it must have stand empty until they are chosen. */
export function blankOf(node: Node, now: Now): unknown {
  if (node.default !== undefined) return withDefaults(node, node.default);
  if (node.anyOf !== undefined)
    return node.anyOf.some(({ type }) => type === 'null') ? null : blankOf(node.anyOf[0] as Node, now);
  if (node.enum !== undefined) return node.enum[0];
  switch (node.type) {
    case 'object':
      return Object.fromEntries(
        Object.entries(node.properties ?? {}).map(([name, one]) => [name, blankOf(one as Node, now)]),
      );
    case 'array':
      return Array.isArray(node.items) ? node.items.map((item) => blankOf(item as Node, now)) : [];
    case 'boolean':
      return false;
    case 'integer':
      return Math.max(node.minimum ?? 0, 0);
    case 'number':
      return 1;
    default:
      return blankText(node, now);
  }
}

function blankText({ format }: Node, now: Now): string {
  if (format === 'local-day') return now.day;
  if (format === 'local-instant') return now.instant;
  if (format === 'local-month') return now.day.slice(0, 7);
  return format === 'yearly-range' ? '11-15..03-15' : '';
}

/** A list with one of its items a place further on or back. */
export function shifted<T>(list: readonly T[], index: number, by: number): T[] {
  const to = index + by;
  if (to < 0 || to >= list.length) return [...list];
  const out = list.toSpliced(index, 1);
  out.splice(to, 0, list[index]!);
  return out;
}
