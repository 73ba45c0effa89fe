/**
 * The rules of order of the trade, as data. All of them are common practice; each names the reason and the kind of harm.
 * `C001` and so on are the rows of the trade's table of constraints that a rule stands for.
 */
import type { Face } from '../contract/shell.ts';
import type { CHECK_KINDS, LinkWhy } from '../contract/task.ts';
import { BEFORE_RULES } from './rules/before.ts';
import { BETWEEN_RULES } from './rules/between.ts';
import { ROOM_ORDER } from './rules/order-room.ts';
import { SHELL_ORDER } from './rules/order-shell.ts';

type CheckKind = (typeof CHECK_KINDS)[number];

/** Which tasks a rule speaks of: those of any of the kinds, on any of the faces. */
export interface Side {
  readonly kinds: readonly string[];
  /** Not those that are of one of these as well. */
  readonly unless?: readonly string[];
  /** Left out: anywhere. */
  readonly faces?: readonly Face[];
  /** Only those that work on these faces and nowhere else. */
  readonly only?: true;
}

interface RuleWords {
  readonly key: string;
  /** What is right, as a heading. */
  readonly title: string;
  readonly reason: string;
  readonly harm: LinkWhy;
  readonly from: readonly string[];
}

/** Every first before every later one, in each zone that both work in, or in the whole build. */
export interface OrderRule extends RuleWords {
  readonly shape: 'order';
  readonly scope: 'zone' | 'build';
  readonly first: Side;
  readonly later: Side;
  /** Only where the first lies behind the later one: what is in front of it is not hidden by it. */
  readonly behind?: true;
}

/** Each later one has at least one of the needed before it: in one of its zones (or without a place), or in the build. */
export interface BeforeRule extends RuleWords {
  readonly shape: 'before';
  readonly scope: 'zone' | 'build';
  readonly later: Side;
  readonly need: Side;
  /** Only in zones where a task of these kinds works. */
  readonly where?: readonly string[];
  /** An entry check of these kinds on the task itself does as well. */
  readonly checks?: readonly CheckKind[];
  /** The entry of the catalogue that is added where there is none; a plain task where the catalogue has none. */
  readonly adds: string;
}

/** Each `of` has one of the needed after it and before what closes it up. */
export interface BetweenRule extends RuleWords {
  readonly shape: 'between';
  /** Where `of` and `before` meet. */
  readonly scope: 'zone' | 'build';
  readonly of: Side;
  readonly need: Side;
  /** The needed may be anywhere in the build. */
  readonly needAnywhere?: true;
  readonly before: Side;
  /** Needed also where nothing closes it up. */
  readonly always?: true;
  /** A check of these kinds on the task itself does as well. */
  readonly checks?: readonly CheckKind[];
  readonly adds: string;
}

export type TradeRule = OrderRule | BeforeRule | BetweenRule;

export const TRADE_RULES: readonly TradeRule[] = [
  ...SHELL_ORDER,
  ...ROOM_ORDER,
  ...BEFORE_RULES,
  ...BETWEEN_RULES,
];

const byKey = new Map(TRADE_RULES.map((rule) => [rule.key, rule]));

export function ruleOf(key: string): TradeRule | null {
  return byKey.get(key) ?? null;
}
