/** The pieces a form repeats within itself, handed down so that its components need not know each other. */
import type { Snippet } from 'svelte';
import type { Field, FormContext, Holder } from './form-model.ts';

export type Path = readonly (string | number)[];

export interface FormParts {
  /** The fields of an object. */
  readonly block: Snippet<[readonly Field[], Holder, Path, FormContext, (value: Holder) => void]>;
  /** One field by itself. */
  readonly one: Snippet<[Field, unknown, Holder, Path, FormContext, (value: unknown) => void]>;
}
