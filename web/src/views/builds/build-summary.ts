/** A build as the store's list tells it. */
export interface BuildSummary {
  readonly id: string;
  readonly name: string;
  readonly vehicle: string;
  readonly revision: number;
  /** An instant with its zone. */
  readonly createdAt: string;
  /** When it was put away, an instant with its zone; null: at work. */
  readonly archivedAt: string | null;
  /** Which comes first, from 1. */
  readonly place: number;
  readonly people: readonly {
    readonly key: string;
    readonly name: string;
    readonly sharedAs: string | null;
  }[];
}

/** A build with where it stands by its plan. */
export interface BuildStanding extends BuildSummary {
  /** The last day by the dates people can keep; null where it is not known. */
  readonly finishOn: string | null;
  /** 0 to 1. */
  readonly complete: number | null;
  readonly tasks: number;
  readonly finished: number;
}

export function pathOf({ id }: Pick<BuildSummary, 'id'>): string {
  return `/api/builds/${encodeURIComponent(id)}`;
}

export function fileOf(build: BuildSummary): string {
  return `${pathOf(build)}/file`;
}
