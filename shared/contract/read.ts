/**
 * The one way into the engine for a document from outside: parse, check every field, fill what was left out,
 * check what fields say about each other. What comes out can be computed on without further doubt.
 */
import { parse, printParseErrorCode, type ParseError } from 'jsonc-parser';
import { Compile, type Validator } from 'typebox/compile';
import { PlanError, type FieldFault } from '../errors.ts';
import { BuildFile, BuildFileInput } from './build-file.ts';
import { withDefaults } from './defaults.ts';
import { faultsOf, type SchemaNode } from './faults.ts';
import { referenceFaults } from './references.ts';

/** @throws PlanError `not-json` with line and column, `bad-build` with a fault per field */
export function parseBuild(text: string): BuildFile {
  return readBuild(parseJson(text));
}

/** @throws PlanError `not-json` with line and column */
export function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw notJson(text);
  }
}

/** @throws PlanError `bad-build` */
export function readBuild(value: unknown): BuildFile {
  // The compiled check is fast and says only yes or no; the faults are looked for only when there are some.
  if (!validator().Check(value)) throw badBuild(faultsOf(BuildFileInput, value));
  const build = withDefaults(BuildFile as unknown as SchemaNode, value) as BuildFile;
  const wrong = referenceFaults(build);
  if (wrong.length > 0) throw badBuild(wrong);
  return build;
}

let compiled: Validator | undefined;

/** Compiled at first use: where code may not be made at run time (a strict page) TypeBox interprets instead. */
function validator(): Validator {
  compiled ??= Compile(BuildFileInput);
  return compiled;
}

function badBuild(errors: readonly FieldFault[]): PlanError {
  const [first] = errors;
  const more = errors.length > 1 ? `, and ${errors.length - 1} more` : '';
  const message = `This is not a build: ${first?.pointer || 'the document'} ${first?.detail}${more}.`;
  return new PlanError(message, { code: 'bad-build', errors });
}

/** Where the text stops being JSON: engines word their errors differently, so a tolerant parser looks for the place. */
function notJson(text: string): PlanError {
  const errors: ParseError[] = [];
  try {
    parse(text, errors, { disallowComments: true, allowTrailingComma: false, allowEmptyContent: false });
  } catch (error) {
    // It calls itself for every bracket: brackets by the ten thousand are beyond it, and all it would say is where.
    if (!(error instanceof RangeError)) throw error;
  }
  const at = errors[0]?.offset ?? text.length;
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  const column = at - before.lastIndexOf('\n');
  const message =
    text.trim() === ''
      ? 'The file is empty.'
      : endsEarly(text, errors[0])
        ? `The file ends in the middle, at line ${line}: it may have been cut off.`
        : `This is not JSON: line ${line}, column ${column} cannot be read.`;
  return new PlanError(message, { code: 'not-json', line, column });
}

/** The error is that there is no more: not something after the end, nor a word that was never going to be JSON. */
function endsEarly(text: string, error: ParseError | undefined): boolean {
  if (error === undefined) return true;
  const { offset, length } = error;
  const code = printParseErrorCode(error.error);
  if (code === 'EndOfFileExpected' || offset + length < text.trimEnd().length) return false;
  const word = text.slice(offset).trim();
  return code !== 'InvalidSymbol' || ['true', 'false', 'null'].some((whole) => whole.startsWith(word));
}
