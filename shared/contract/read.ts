/**
 * The one way into the engine for a document from outside: parse, check every field, fill what was left out,
 * check what fields say about each other. What comes out can be computed on without further doubt.
 */
import { Value } from 'typebox/value';
import { PlanError } from '../errors.ts';
import { BuildFile, BuildFileInput } from './build-file.ts';
import { faultsOf } from './faults.ts';
import { referenceFaults } from './references.ts';

/** @throws PlanError `not-json` with line and column, `bad-build` with a fault per field */
export function parseBuild(text: string): BuildFile {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw notJson(text, error);
  }
  return readBuild(value);
}

/** @throws PlanError `bad-build` */
export function readBuild(value: unknown): BuildFile {
  const faults = faultsOf(BuildFileInput, value);
  if (faults.length > 0) throw badBuild(faults);
  const build = Value.Default(BuildFile, Value.Clone(value)) as BuildFile;
  const wrong = referenceFaults(build);
  if (wrong.length > 0) throw badBuild(wrong);
  return build;
}

function badBuild(errors: readonly { pointer: string; detail: string }[]): PlanError {
  const [first] = errors;
  const more = errors.length > 1 ? ` and ${errors.length - 1} more` : '';
  return new PlanError(`This is not a build: ${first?.pointer || 'the document'} ${first?.detail}${more}.`, {
    code: 'bad-build',
    errors,
  });
}

/** Where the text stops being JSON, as far as the engine says. */
function notJson(text: string, cause: unknown): PlanError {
  const at = Number(/position (\d+)/.exec(cause instanceof Error ? cause.message : '')?.[1] ?? text.length);
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  const column = at - before.lastIndexOf('\n');
  const ends = at >= text.length;
  return new PlanError(
    ends
      ? `The file ends in the middle, at line ${line}: it may have been cut off.`
      : `This is not JSON: line ${line}, column ${column} cannot be read.`,
    { code: 'not-json', line, column },
  );
}
