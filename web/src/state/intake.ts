/** A table while it is typed or pasted: as it would be taken in, or why it cannot be read. Nothing typed is neither. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import { PlanError } from '#shared/errors.ts';
import { takeIn, type Intake, type TableName } from '#shared/exchange/intake.ts';

export interface TriedIntake {
  readonly intake: Intake | null;
  readonly wrong: string;
}

export function triedIntake(table: TableName, text: string, file: BuildFile): TriedIntake {
  if (text.trim() === '') return { intake: null, wrong: '' };
  try {
    return { intake: takeIn(table, text, file), wrong: '' };
  } catch (error) {
    if (error instanceof PlanError) return { intake: null, wrong: error.message };
    throw error;
  }
}
