/**
 * The build file: one build as one JSON document. The schema below has every field; the schema of what may be sent
 * (`BuildFileInput`) is the same text with the fields that have a default made optional.
 */
import { Type, type Static, type TSchema } from 'typebox';
import { BuildHead } from './build.ts';
import { Condition, Person, Tool } from './calendar.ts';
import { Keys, Strict } from './common.ts';
import { Baseline, Decision, Dismissal, Hours, PhotoRecord, Weighing } from './log.ts';
import { Purchase } from './purchase.ts';
import { Depth, Zone, ZoneGroup } from './shell.ts';
import { Exception, Link, Phase, Task } from './task.ts';
import { Timer } from './timer.ts';

const list = <T extends TSchema>(type: T, what: string, maxItems = 50_000) =>
  Type.Array(type, { default: [], maxItems, description: `a list of ${what}, ${maxItems} at most` });

export const FORMAT = 'coverlast-build';
export const FORMAT_VERSION = 1;

export const BuildFile = Type.Object(
  {
    format: Type.Literal(FORMAT, { description: `"${FORMAT}"` }),
    version: Type.Literal(FORMAT_VERSION, { description: `${FORMAT_VERSION}` }),
    build: BuildHead,
    people: list(Person, 'people', 200),
    tools: list(Tool, 'tools', 1000),
    conditions: list(Condition, 'conditions', 200),
    depths: list(Depth, 'depths', 500),
    zones: list(Zone, 'zones', 500),
    zoneGroups: list(ZoneGroup, 'zone groups', 100),
    phases: list(Phase, 'phases', 500),
    tasks: list(Task, 'tasks'),
    links: list(Link, 'links', 200_000),
    exceptions: list(Exception, 'exceptions'),
    order: Type.Array(Keys.items, { default: [], maxItems: 50_000, description: 'a list of task keys' }),
    decisions: list(Decision, 'decisions', 5000),
    purchases: list(Purchase, 'purchases'),
    hours: list(Hours, 'hours', 200_000),
    timers: list(Timer, 'timers', 200),
    records: list(PhotoRecord, 'records', 200_000),
    weighings: list(Weighing, 'weighings', 1000),
    baselines: list(Baseline, 'baselines', 200),
    dismissals: list(Dismissal, 'dismissals', 5000),
  },
  Strict,
);

/** A whole build with every default filled in: what the engine works on. */
export type BuildFile = Static<typeof BuildFile>;

/** A schema whose fields with a default may be left out, all the way down. */
export function inputOf(schema: TSchema): TSchema {
  return lenient(structuredCopy(schema)) as TSchema;
}

type Json = { [name: string]: unknown };

function lenient(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(lenient);
  if (typeof node !== 'object' || node === null) return node;
  const out: Json = {};
  for (const [name, value] of Object.entries(node)) out[name] = name === 'default' ? value : lenient(value);
  const properties = out['properties'] as Record<string, Json> | undefined;
  const required = out['required'];
  if (properties !== undefined && Array.isArray(required))
    out['required'] = required.filter((name: string) => !('default' in (properties[name] ?? {})));
  return out;
}

/** TypeBox keeps its bookkeeping in hidden fields; a plain copy of the JSON Schema is all that validation needs. */
function structuredCopy(schema: TSchema): unknown {
  return JSON.parse(JSON.stringify(schema));
}

export const BuildFileInput = inputOf(BuildFile);
