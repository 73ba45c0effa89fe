/**
 * What is wrong with a value, one fault per field in the order of the document: the pointer, what stands there, and
 * what would be right. The words come from the schema's own descriptions, so the two never part. TypeBox decides about
 * each single value; this walk only finds the places and, of several alternatives, the one that was meant.
 */
import type { TSchema } from 'typebox';
import { Value } from 'typebox/value';
import type { FieldFault } from '../errors.ts';
import { KEY_WORDS } from './common.ts';
import { pointer } from './pointer.ts';

/** More faults than these help nobody. */
const MOST = 200;

export type SchemaNode = {
  readonly description?: string;
  readonly type?: string;
  readonly properties?: Readonly<Record<string, SchemaNode>>;
  readonly patternProperties?: Readonly<Record<string, SchemaNode>>;
  readonly required?: readonly string[];
  readonly items?: SchemaNode | readonly SchemaNode[];
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly anyOf?: readonly SchemaNode[];
  readonly default?: unknown;
};

/** Every fault of `value` against `schema`, at most 200; empty when it fits. */
export function faultsOf(schema: TSchema, value: unknown): FieldFault[] {
  const faults: FieldFault[] = [];
  walk(schema as unknown as SchemaNode, value, '', faults);
  return faults.slice(0, MOST);
}

function walk(node: SchemaNode, value: unknown, at: string, faults: FieldFault[]): void {
  if (faults.length >= MOST) return;
  if (node.anyOf !== undefined) {
    if (!node.anyOf.some((option) => fits(option, value))) walk(meant(node, value), value, at, faults);
  } else if (node.type === 'object') walkObject(node, value, at, faults);
  else if (node.type === 'array') walkArray(node, value, at, faults);
  else if (!fits(node, value)) faults.push(notRight(node, value, at));
}

function walkObject(node: SchemaNode, value: unknown, at: string, faults: FieldFault[]): void {
  if (!isObject(value)) {
    faults.push(notRight(node, value, at));
    return;
  }
  const properties = node.properties ?? {};
  const [pattern, named] = Object.entries(node.patternProperties ?? {})[0] ?? [null, null];
  for (const name of node.required ?? [])
    if (!Object.hasOwn(value, name)) {
      const detail = `is missing: it must be ${wordsFor(Object.hasOwn(properties, name) ? properties[name] : undefined)}`;
      faults.push({ pointer: `${at}${pointer(name)}`, detail });
    }
  for (const [name, item] of Object.entries(value)) {
    const here = `${at}${pointer(name)}`;
    const property = Object.hasOwn(properties, name) ? properties[name] : undefined;
    if (property !== undefined) walk(property, item, here, faults);
    else if (pattern === null)
      faults.push({
        pointer: here,
        detail: `is not a field here; the fields are: ${Object.keys(properties).join(', ')}`,
      });
    else if (new RegExp(pattern).test(name)) walk(named, item, here, faults);
    else
      faults.push({
        pointer: here,
        detail: `"${name}" is not a key: it must be ${KEY_WORDS}`,
      });
  }
}

function walkArray(node: SchemaNode, value: unknown, at: string, faults: FieldFault[]): void {
  const { items, minItems = 0, maxItems = Infinity } = node;
  const tuple = Array.isArray(items) ? (items as readonly SchemaNode[]) : null;
  const length = Array.isArray(value) ? value.length : -1; // no list at all: shorter than any
  if (length < minItems || length > maxItems || (tuple !== null && length !== tuple.length)) {
    faults.push(notRight(node, value, at));
    return;
  }
  (value as unknown[]).forEach((item, i) => {
    const own = tuple === null ? (items as SchemaNode | undefined) : tuple[i];
    if (own !== undefined) walk(own, item, `${at}/${i}`, faults);
  });
}

function fits(node: SchemaNode, value: unknown): boolean {
  return Value.Check(node as unknown as TSchema, value);
}

/** Of several alternatives the one the value most looks like: the object that shares most of its fields. */
export function meant(node: SchemaNode, value: unknown): SchemaNode {
  const options = node.anyOf ?? [];
  const real = options.filter((option) => option.type !== 'null');
  const score = (option: SchemaNode) =>
    isObject(value)
      ? Object.keys(option.properties ?? {}).filter((name) => Object.hasOwn(value, name)).length
      : 0;
  const best = real.toSorted((a, b) => score(b) - score(a))[0] ?? {};
  const description =
    node.description ?? (real.length < options.length ? `${wordsFor(best)}, or null` : wordsFor(best));
  return { ...best, description };
}

function notRight(node: SchemaNode, value: unknown, at: string): FieldFault {
  return {
    pointer: at,
    detail: `${at === '' ? 'is not right' : `is ${shown(value)}`}: it must be ${wordsFor(node)}`,
  };
}

function wordsFor(node: SchemaNode | undefined): string {
  if (node?.description !== undefined) return node.description;
  if (node?.type === 'object') return `an object with ${Object.keys(node.properties ?? {}).join(', ')}`;
  if (node?.type === 'array') return 'a list';
  if (node?.anyOf !== undefined) return node.anyOf.map(wordsFor).join(' or ');
  return node?.type === undefined ? 'something else' : `a ${node.type}`;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (isObject(value)) return 'an object';
  if (typeof value === 'number' && !Number.isFinite(value)) return 'no finite number';
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 80 ? `${Array.from(text).slice(0, 77).join('')}…` : text;
}
