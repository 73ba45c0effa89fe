/**
 * What is wrong with a value, one fault per field: the pointer, what stands there, and what would be right.
 * TypeBox finds the places; the words come from the schema's own descriptions, so the two never part.
 */
import { Settings } from 'typebox/system';
import { Value } from 'typebox/value';
import type { TSchema } from 'typebox';
import type { FieldFault } from '../errors.ts';
import { pointer, pointerSteps } from './pointer.ts';

/** More faults than these help nobody. */
const MOST = 200;
Settings.Set({ maxErrors: MOST });

type Node = {
  readonly description?: string;
  readonly type?: string;
  readonly properties?: Record<string, Node>;
  readonly patternProperties?: Record<string, Node>;
  readonly required?: readonly string[];
  readonly items?: Node | readonly Node[];
  readonly anyOf?: readonly Node[];
  readonly maxItems?: number;
};

/** Every fault of `value` against `schema`, in the order of the document; empty when it fits. */
export function faultsOf(schema: TSchema, value: unknown): FieldFault[] {
  if (Value.Check(schema, value)) return [];
  const root = schema as unknown as Node;
  const found = new Map<string, FieldFault>();
  const add = (at: string, detail: string) => {
    if (!found.has(at)) found.set(at, { pointer: at, detail });
  };
  // A parent's fault ("fits no choice") only repeats its child's, so the deepest place wins.
  const errors = Value.Errors(schema, value);
  const deepest = errors.filter(
    (error) => !errors.some((other) => other.instancePath.startsWith(`${error.instancePath}/`)),
  );
  for (const error of deepest.length > 0 ? deepest : errors) {
    const at = error.instancePath;
    const node = nodeAt(root, at, value);
    if (error.keyword === 'required') {
      for (const name of missing(node, valueAt(value, at)))
        add(`${at}${pointer(name)}`, `is missing: it must be ${words(node?.properties?.[name])}`);
    } else if (node === undefined) {
      const parent = nodeAt(root, at.slice(0, at.lastIndexOf('/')), value);
      add(at, `is not a field here; the fields are: ${Object.keys(parent?.properties ?? {}).join(', ')}`);
    } else {
      add(at, `${shown(valueAt(value, at))} is not right: it must be ${words(node)}`);
    }
  }
  return [...found.values()];
}

function missing(node: Node | undefined, value: unknown): string[] {
  const has = typeof value === 'object' && value !== null ? value : {};
  return (node?.required ?? []).filter((name) => !Object.hasOwn(has, name));
}

/** The part of the schema that governs a place, looking through "or null". Undefined: a field it does not know. */
function nodeAt(root: Node, at: string, value: unknown): Node | undefined {
  let node: Node | undefined = root;
  let here = value;
  for (const step of pointerSteps(at)) {
    node = choice(node, here);
    here = child(here, step);
    if (node?.properties !== undefined) node = node.properties[step];
    else if (node?.patternProperties !== undefined) node = Object.values(node.patternProperties)[0];
    else if (node?.items !== undefined)
      node = Array.isArray(node.items) ? node.items[Number(step)] : (node.items as Node);
    else return undefined;
  }
  return node === undefined ? undefined : choice(node, here);
}

/** Of several alternatives, the one the value most looks like: the object that shares most of its fields. */
function choice(node: Node | undefined, value: unknown): Node | undefined {
  if (node?.anyOf === undefined) return node;
  if (node.description !== undefined)
    return { ...node, ...best(node.anyOf, value), description: node.description };
  const real = node.anyOf.filter((option) => option.type !== 'null');
  const nullable = real.length < node.anyOf.length;
  const picked = best(real, value);
  if (picked === undefined) return node;
  return nullable ? { ...picked, description: `${words(picked)}, or null` } : picked;
}

function best(options: readonly Node[], value: unknown): Node | undefined {
  if (typeof value !== 'object' || value === null) return options[0];
  const score = (option: Node) =>
    Object.keys(option.properties ?? {}).filter((name) => Object.hasOwn(value, name)).length;
  return options.toSorted((a, b) => score(b) - score(a))[0];
}

function words(node: Node | undefined): string {
  if (node?.description !== undefined) return node.description;
  if (node?.type === 'object') return `an object with ${Object.keys(node.properties ?? {}).join(', ')}`;
  if (node?.type === 'array') return 'a list';
  if (node?.anyOf !== undefined) return node.anyOf.map(words).join(' or ');
  return node?.type === undefined ? 'something else' : `a ${node.type}`;
}

function child(value: unknown, step: string): unknown {
  if (Array.isArray(value)) return value[Number(step)];
  if (typeof value === 'object' && value !== null && Object.hasOwn(value, step))
    return (value as Record<string, unknown>)[step];
  return undefined;
}

function valueAt(value: unknown, at: string): unknown {
  return pointerSteps(at).reduce(child, value);
}

function shown(value: unknown): string {
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object' && value !== null) return 'an object';
  const text = JSON.stringify(value) ?? 'nothing';
  return text.length > 80 ? `${text.slice(0, 77)}…` : text;
}
