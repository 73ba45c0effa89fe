/**
 * Plain projects from a text: the single-mode format of PSPLIB (R. Kolisch, A. Sprecher, "PSPLIB: a project scheduling
 * problem library", EJOR 96, 1997), or JSON, one project or a list of them.
 */
import { pointer } from '../contract/pointer.ts';
import { parseJson } from '../contract/read.ts';
import { PlanError, type FieldFault } from '../errors.ts';
import { orderOf, groupArcs } from './arcs.ts';
import { LARGEST, LONGEST, type Activity, type Project } from './project.ts';
import { looksLikePsplib, readPsplib } from './read-psplib.ts';

export interface NamedProject extends Project {
  readonly name: string;
  /** The least makespan anybody has found; null where none is told. */
  readonly best: number | null;
}

/** @throws PlanError `not-json`, `bad-request` with a fault per field */
export function readProjects(text: string): NamedProject[] {
  const value: unknown = looksLikePsplib(text) ? readPsplib(text) : parseJson(text);
  const reader = new Reader();
  const projects = Array.isArray(value)
    ? value.map((one, i) => reader.project(one, `project ${i + 1}`, [i]))
    : [reader.project(value, 'project', [])];
  if (projects.length === 0) reader.fault([], 'must be a project or a list of them');
  const [first] = reader.faults;
  if (first === undefined) return projects;
  const more = reader.faults.length > 1 ? `, and ${reader.faults.length - 1} more` : '';
  const message = `This is not a project: ${first.pointer || 'the document'} ${first.detail}${more}.`;
  throw new PlanError(message, { code: 'bad-request', errors: reader.faults });
}

type Step = string | number;
type Fields = Readonly<Record<string, unknown>>;

/** Reads on after a fault, so that all are told; what it returns then is of no use. */
class Reader {
  readonly faults: FieldFault[] = [];

  fault(at: readonly Step[], detail: string): void {
    this.faults.push({ pointer: pointer(...at), detail });
  }

  project(value: unknown, name: string, at: readonly Step[]): NamedProject {
    const fields = this.#fields(value, at);
    const capacities = this.#numbers(fields['resources'], LARGEST, [...at, 'resources']);
    const list = this.#list(fields['activities'], [...at, 'activities']);
    const known = this.faults.length;
    const activities = list.map((one, v) =>
      this.#activity(one, capacities, list.length, [...at, 'activities', v]),
    );
    if (this.faults.length === known) this.#whole(activities, [...at, 'activities']);
    return {
      name: typeof fields['name'] === 'string' ? fields['name'] : name,
      best: typeof fields['best'] === 'number' && fields['best'] > 0 ? fields['best'] : null,
      capacities,
      activities,
    };
  }

  #activity(value: unknown, capacities: readonly number[], count: number, at: readonly Step[]): Activity {
    const fields = this.#fields(value, at);
    const duration = this.#number(fields['d'], LONGEST, [...at, 'd']);
    const demands = this.#list(fields['r'], [...at, 'r']);
    if (demands.length !== capacities.length)
      this.fault([...at, 'r'], `must have a number for each of the ${capacities.length} resources`);
    return {
      duration,
      demands: demands.map((demand, k) => this.#number(demand, capacities[k] ?? LARGEST, [...at, 'r', k])),
      successors: this.#numbers(fields['succ'], count - 1, [...at, 'succ']),
    };
  }

  /** What no single field shows. */
  #whole(activities: readonly Activity[], at: readonly Step[]): void {
    if (activities.reduce((sum, { duration }) => sum + duration, 0) > LONGEST)
      this.fault(at, `must not last longer than ${LONGEST} together`);
    const arcs = activities.flatMap(({ successors }, v) => successors.map((w) => [v, w] as const));
    try {
      orderOf(groupArcs(activities.length, arcs));
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      this.fault(at, 'wait for each other in a circle');
    }
  }

  #fields(value: unknown, at: readonly Step[]): Fields {
    if (typeof value === 'object' && value !== null && !Array.isArray(value)) return value as Fields;
    this.fault(at, 'must be an object');
    return {};
  }

  #list(value: unknown, at: readonly Step[]): readonly unknown[] {
    if (Array.isArray(value)) return value as readonly unknown[];
    this.fault(at, 'must be a list');
    return [];
  }

  #numbers(value: unknown, most: number, at: readonly Step[]): number[] {
    return this.#list(value, at).map((one, i) => this.#number(one, most, [...at, i]));
  }

  #number(value: unknown, most: number, at: readonly Step[]): number {
    if (typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= most) return value;
    this.fault(at, `must be a whole number from 0 to ${most}`);
    return 0;
  }
}
