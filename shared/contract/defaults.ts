/** Fills in what a document left out, from the defaults of its schema. The document itself stays as it was. */
import { meant, type SchemaNode } from './faults.ts';

/** @param value fits the schema, apart from fields that have a default */
export function withDefaults(node: SchemaNode, value: unknown): unknown {
  if (node.anyOf !== undefined) return value === null ? null : withDefaults(meant(node, value), value);
  if (Array.isArray(value)) {
    const { items } = node;
    return value.map((item, i) => withDefaults((Array.isArray(items) ? items[i] : items) ?? {}, item));
  }
  if (typeof value !== 'object' || value === null) return value;
  const properties = node.properties ?? {};
  const named = Object.values(node.patternProperties ?? {})[0];
  const entries = Object.entries(value).map(([name, item]): [string, unknown] => [
    name,
    withDefaults((Object.hasOwn(properties, name) ? properties[name] : named) ?? {}, item),
  ]);
  for (const [name, property] of Object.entries(properties))
    if (!Object.hasOwn(value, name) && property.default !== undefined)
      entries.push([name, withDefaults(property, property.default)]);
  return Object.fromEntries(entries);
}
