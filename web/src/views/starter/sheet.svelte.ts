/**
 * The starter's sheet as it is being filled in. It stands in the device's memory until the plan is made, so that a call
 * or a reload loses nothing; what no longer fits the questions falls back to their own answers.
 */
import type { Person } from '#shared/contract/calendar.ts';
import { Answers, readAnswers, readStarterHead, type ChoiceField } from '#shared/starter/answers.ts';
import { faultsOf } from '#shared/contract/faults.ts';
import { inputOf } from '#shared/contract/build-file.ts';
import { RHYTHMS } from '#shared/starter/questions.ts';
import { who } from '../../state/api.ts';
import { nowText } from '../../state/clock.svelte.ts';
import { keep, kept } from '../../state/kept.ts';

const KEPT = 'coverlast.starter';

export interface Builder {
  readonly name: string;
  readonly week: Person['week'];
}

/** What names the build and sets it in time, as typed: fields may be empty for a while. */
export interface TypedHead {
  readonly name: string;
  readonly startOn: string | null;
  readonly targetFinishOn: string | null;
  readonly budget: number | null;
  readonly currency: string;
  readonly people: readonly Builder[];
}

interface Kept {
  readonly answers: Answers;
  readonly head: TypedHead;
}

export class Sheet {
  answers: Answers = $state.raw(readAnswers({}));
  head: TypedHead = $state.raw(firstHead());

  constructor() {
    const was = kept(KEPT) as Partial<Kept> | null;
    if (faultsOf(inputOf(Answers), was?.answers ?? {}).length === 0)
      this.answers = readAnswers(was?.answers ?? {});
    if (isHead(was?.head)) this.head = was.head;
  }

  choose(field: ChoiceField, value: string): void {
    this.set({ [field]: value } as Partial<Answers>);
  }

  set(some: Partial<Answers>): void {
    this.answers = { ...this.answers, ...some };
    this.#keep();
  }

  name(some: Partial<TypedHead>): void {
    this.head = { ...this.head, ...some };
    this.#keep();
  }

  /** Everything as the questions themselves would have it. */
  restart(): void {
    this.answers = readAnswers({});
    this.head = firstHead();
    keep(KEPT, null);
  }

  /** The plan is made. */
  forget(): void {
    keep(KEPT, null);
  }

  #keep(): void {
    keep(KEPT, { answers: this.answers, head: this.head });
  }
}

/** The head as the starter takes it. A blank name is one nobody has given yet. */
export function headOf({ name, budget, people, ...rest }: TypedHead): unknown {
  return {
    ...rest,
    name: name.trim() === '' ? UNNAMED : name.trim(),
    budget: Number.isNaN(budget) ? -1 : budget,
    currency: rest.currency.trim().toUpperCase(),
    people: people.map((one, i) => ({
      name: one.name.trim() === '' ? (i === 0 ? 'Me' : `Person ${i + 1}`) : one.name.trim(),
      week: one.week,
    })),
  };
}

const UNNAMED = 'My van';

function firstHead(): TypedHead {
  return {
    name: '',
    startOn: nowText().slice(0, 10),
    targetFinishOn: null,
    budget: null,
    currency: 'EUR',
    people: [{ name: who.get() ?? '', week: RHYTHMS[0]!.week }],
  };
}

/** Could the sheet show it? What the plan asks of it is said beside the fields. */
function isHead(value: unknown): value is TypedHead {
  const head = value as Partial<Record<keyof TypedHead, unknown>> | null | undefined;
  if (typeof head?.name !== 'string' || typeof head.currency !== 'string' || !Array.isArray(head.people))
    return false;
  try {
    const { people } = head as { people: Builder[] };
    readStarterHead({
      name: 'x',
      startOn: '2027-01-01',
      people: people.map(({ week }) => ({ name: 'x', week })),
    });
    return people.every(({ name }) => typeof name === 'string');
  } catch {
    return false;
  }
}
