/** When an unfinished task uses what it needs, days since 1970-01-01; null where not known. */
export interface Use {
  readonly task: string;
  /** Under way: what it needs is in use. */
  readonly begun: boolean;
  readonly start: number | null;
  readonly finish: number | null;
  readonly lateStart: number | null;
}
