/** A build as the store's list tells it. */
export interface BuildSummary {
  readonly id: string;
  readonly name: string;
  readonly vehicle: string;
  readonly revision: number;
  /** An instant with its zone. */
  readonly createdAt: string;
}

export function fileOf({ id }: BuildSummary): string {
  return `/api/builds/${encodeURIComponent(id)}/file`;
}
