/** A build in short, as the list tells it: what it is called, its place among all, and who works on it. */
import { Type, type Static } from 'typebox';
import { PlanError } from '#shared/errors.ts';
import { peopleByBuild } from '../store/build-order.ts';
import { listBuilds } from '../store/builds.ts';
import type { Handle } from '../store/database.ts';

const Strict = { additionalProperties: false } as const;
const OrNull = <T extends Parameters<typeof Type.Array>[0]>(type: T, description: string) =>
  Type.Union([type, Type.Null()], { description });

export const BuildSummary = Type.Object(
  {
    id: Type.String(),
    name: Type.String(),
    vehicle: Type.String(),
    revision: Type.Integer(),
    createdAt: Type.String(),
    archivedAt: OrNull(Type.String(), 'when it was put away; null: at work'),
    place: Type.Integer({ description: 'which comes first, counted from 1' }),
    people: Type.Array(
      Type.Object(
        {
          key: Type.String(),
          name: Type.String(),
          sharedAs: OrNull(Type.String(), 'one name for the same person in every build'),
        },
        Strict,
      ),
    ),
  },
  Strict,
);

export const BuildStanding = Type.Object(
  {
    ...BuildSummary.properties,
    finishOn: OrNull(Type.String(), 'the last day by the dates people can keep'),
    complete: OrNull(Type.Number(), 'share of the estimated hours that is done, 0 to 1'),
    tasks: Type.Integer(),
    finished: Type.Integer({ description: 'tasks that are finished' }),
  },
  Strict,
);

/** Every build, in order. */
export function summaries(db: Handle): Static<typeof BuildSummary>[] {
  const people = peopleByBuild(db);
  return listBuilds(db).map(({ id, revision, createdAt, archivedAt, head: { name, vehicle } }, i) => ({
    id,
    name,
    vehicle,
    revision,
    createdAt,
    archivedAt,
    place: i + 1,
    people: [...(people.get(id) ?? [])],
  }));
}

/** @throws PlanError `not-found` */
export function summaryOf(db: Handle, id: string): Static<typeof BuildSummary> {
  const found = summaries(db).find((one) => one.id === id);
  if (found === undefined)
    throw new PlanError(`There is no build "${id}".`, { code: 'not-found', what: 'build', id });
  return found;
}
