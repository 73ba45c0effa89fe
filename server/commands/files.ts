/** What the commands share: read a build, print a result, and end with a problem object and exit 1 on bad input. */
import { readFileSync } from 'node:fs';
import type { BuildFile } from '#shared/contract/build-file.ts';
import { parseBuild } from '#shared/contract/read.ts';
import { PlanError } from '#shared/errors.ts';

/** @throws PlanError `no-file`, and whatever `parseBuild` throws */
export function readBuildFile(path: string): BuildFile {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (error) {
    const why = error instanceof Error && 'code' in error ? String(error.code) : 'unreadable';
    throw new PlanError(`The file ${path} cannot be read (${why}).`, { code: 'no-file', path });
  }
  return parseBuild(text.replace(/^\uFEFF/, ''));
}

/** Whoever reads the output may stop early (`| head`): that is no failure. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? 0 : 1);
});

export function print(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 2)}\n`);
}

/** Runs a command; what a user caused comes out as a problem (RFC 9457) on standard output and a sentence on standard error. */
export function runCommand(command: () => void): void {
  try {
    command();
  } catch (error) {
    if (!(error instanceof PlanError)) throw error;
    const { code, ...data } = error.failure;
    print({ type: `/problems/${code}`, title: error.message, ...data });
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}
