/** The reference as one plain page: every address with its parameters, body and answers, readable without a script. */

interface Schema {
  readonly $ref?: string;
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly default?: unknown;
}

interface Parameter {
  readonly name: string;
  readonly in: string;
  readonly required?: boolean;
  readonly description?: string;
}

type Content = Readonly<Record<string, { readonly schema: Schema }>>;

interface Operation {
  readonly tags?: readonly string[];
  readonly summary?: string;
  readonly description?: string;
  readonly parameters?: readonly Parameter[];
  readonly requestBody?: { readonly content: Content };
  readonly responses?: Readonly<
    Record<string, { readonly description?: string; readonly content?: Content }>
  >;
}

/** As much of an OpenAPI document as the page shows. */
export interface OpenApi {
  readonly info: { readonly title: string; readonly description?: string };
  readonly paths: Readonly<Record<string, Readonly<Record<string, Operation>>>>;
}

type Row = readonly [name: string, words: string, need: string];

export function referencePage({ info, paths }: OpenApi): string {
  const operations = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ path, method, operation })),
  );
  const tagOf = ({ tags }: Operation) => tags?.[0] ?? 'Other';
  const tags = [...new Set(operations.map(({ operation }) => tagOf(operation)))];
  const sections = tags.map((tag) => {
    const own = operations.filter(({ operation }) => tagOf(operation) === tag);
    return `<section id="${anchor(tag)}"><h2>${text(tag)}</h2>${own.map(one).join('')}</section>`;
  });
  const contents = tags.map((tag) => `<a href="#${anchor(tag)}">${text(tag)}</a>`).join('\n');
  return `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>${text(info.title)}: reference</title><link rel="stylesheet" href="/api/reference.css"></head>
<body><header><h1>${text(info.title)}: reference</h1><p>${text(info.description ?? '')}</p>
<p>For programs: <a href="/api/openapi.json">openapi.json</a> (OpenAPI 3.1).</p></header>
<nav aria-label="Contents">${contents}</nav><main>${sections.join('\n')}</main></body></html>
`;
}

function one({ path, method, operation }: { path: string; method: string; operation: Operation }): string {
  const { parameters = [], requestBody, responses = {}, summary = '', description = '' } = operation;
  const asked = parameters.map((one): Row => [
    one.name,
    `${one.in}: ${one.description ?? ''}`,
    one.required === true ? 'needed' : '',
  ]);
  const body = Object.values(requestBody?.content ?? {})[0]?.schema;
  const answers = Object.entries(responses).map(([status, { content, description = '' }]): Row => {
    const [media, schema] = Object.entries(content ?? {})[0] ?? ['', undefined];
    const what =
      schema === undefined || schema.schema.$ref !== undefined ? description : words(schema.schema);
    return [status, what, media === 'application/json' ? '' : media];
  });
  return `<details><summary><h3><code><span class="method">${text(method.toUpperCase())}</span>${text(path)}</code></h3> <span>${text(summary)}</span></summary>
<div>${description === '' ? '' : `<p>${text(description)}</p>`}${table('With', asked)}${body === undefined ? '' : table('Body', fieldsOf(body))}${table('Answers', answers)}</div></details>`;
}

function table(title: string, rows: readonly Row[]): string {
  if (rows.length === 0) return '';
  const lines = rows.map(
    ([name, what, need]) =>
      `<tr><td><code>${text(name)}</code></td><td>${text(what)}</td><td>${text(need)}</td></tr>`,
  );
  return `<h4>${text(title)}</h4><table><tbody>${lines.join('')}</tbody></table>`;
}

/** A row per field of an object; anything else is one row in words. */
function fieldsOf(schema: Schema): Row[] {
  if (schema.properties === undefined) return [['', words(schema), '']];
  return Object.entries(schema.properties).map(([name, field]) => {
    const isNeeded = schema.required?.includes(name) === true;
    const fallback = field.default === undefined ? '' : `else ${JSON.stringify(field.default)}`;
    return [name, words(field), isNeeded ? 'needed' : fallback];
  });
}

function words(schema: Schema): string {
  if (schema.description !== undefined) return schema.description;
  if (schema.enum !== undefined) return `one of: ${schema.enum.join(', ')}`;
  if (schema.const !== undefined) return JSON.stringify(schema.const);
  if (schema.anyOf !== undefined) return schema.anyOf.map(words).join(' or ');
  if (schema.type === 'array') return `a list: ${words(schema.items ?? {})}`;
  if (schema.properties !== undefined) return `an object with ${Object.keys(schema.properties).join(', ')}`;
  return schema.type ?? 'anything';
}

function anchor(tag: string): string {
  return encodeURIComponent(tag.toLowerCase().replaceAll(' ', '-'));
}

function text(value: string): string {
  return value
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}
