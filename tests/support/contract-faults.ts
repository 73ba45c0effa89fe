/** What tests of the contract ask: the full document with one place changed, and the faults that reading it finds. */
import { expect } from 'vitest';
import { readBuild } from '#shared/contract/read.ts';
import { PlanError, type FieldFault } from '#shared/errors.ts';
import { fullDocument, type Loose } from './full-document.ts';

export const LEFT_OUT = Symbol('left out');

/** The full document with one place changed, added or left out. @param at a JSON pointer without escapes */
export function changed(at: string, value: unknown): Loose {
  const document = fullDocument();
  const steps = at.split('/').slice(1);
  const last = steps.pop()!;
  const parent = valueAt(document, steps.map((step) => `/${step}`).join('')) as Loose;
  if (value === LEFT_OUT) delete parent[last];
  else parent[last] = value;
  return document;
}

export function valueAt(document: unknown, at: string): unknown {
  return at
    .split('/')
    .slice(1)
    .reduce<unknown>((here, step) => (here as Loose)[step], document);
}

/** Why it was refused. @throws Error if it was not */
export function refusalOf(read: () => unknown, what = 'it'): PlanError {
  try {
    read();
  } catch (error) {
    if (error instanceof PlanError) return error;
    throw error;
  }
  throw new Error(`${what} was accepted`);
}

export function faultsIn(read: () => unknown, what = 'it'): readonly FieldFault[] {
  const { failure } = refusalOf(read, what);
  if (failure.code !== 'bad-build') throw new Error(`${what} was refused as ${failure.code}`);
  return failure.errors;
}

/** In the order of the alphabet. */
export function pointersIn(read: () => unknown): string[] {
  return faultsIn(read)
    .map(({ pointer }) => pointer)
    .toSorted();
}

/** One fault, at just that place, in words that hold `detail`. */
export function expectRefusal(document: unknown, pointer: string, detail: string): void {
  const faults = faultsIn(() => readBuild(document), pointer);
  expect(faults, pointer).toEqual([{ pointer, detail: expect.stringContaining(detail) }]);
}
