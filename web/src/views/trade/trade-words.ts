/** The findings of the trade check in groups and words: by place, then by rule, the worst first. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Face } from '#shared/contract/shell.ts';
import type { LinkWhy } from '#shared/contract/task.ts';
import {
  STANDINGS,
  type Standing,
  type TradeFinding,
  type TradeRepair,
} from '#shared/contract/plan-trade.ts';
import { namesOf } from '#shared/covers/names.ts';
import { kindName, kindOf } from '#shared/trade/kinds.ts';
import { ruleOf } from '#shared/trade/rules.ts';
import { CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { capital, list } from '../../drawing/words.ts';

/** What goes wrong otherwise, by the kind of harm. */
export const HARM_WORDS: Readonly<Record<LinkWhy, string>> = {
  'hidden-by': 'it is hidden for good',
  'needs-surface': 'the surface is not ready',
  'needs-dry': 'it is not dry or hard yet',
  'needs-access': 'the way to it is blocked',
  'needs-power-for-test': 'it cannot be tested any more',
  'heavy-first': 'the heavy part does not go in',
  legal: 'papers, rules or lives hang on it',
  'needs-decision': 'it is settled too late',
  'keeps-clean': 'it gets dirty or damaged',
};

export const STANDING_WORDS: Readonly<Record<Standing, string>> = {
  wrong: 'the other way round',
  begun: 'begun already',
  missing: 'missing',
  dates: 'wrong by the dates',
  unheld: 'not held',
};

const FACE_WORDS: Readonly<Record<Face, string>> = {
  left: 'Left wall',
  right: 'Right wall',
  floor: 'Floor',
  ceiling: 'Ceiling',
  front: 'Bulkhead',
  rear: 'Rear doors',
  underbody: 'Underbody',
  roof: 'Roof, outside',
  'outside-left': 'Left side, outside',
  'outside-right': 'Right side, outside',
  cab: 'Cab',
  elsewhere: 'Elsewhere',
};

export interface RuleGroup {
  readonly rule: string;
  readonly title: string;
  readonly reason: string;
  readonly harm: LinkWhy;
  readonly findings: readonly TradeFinding[];
}

export interface PlaceGroup {
  readonly place: string;
  readonly rules: readonly RuleGroup[];
}

/** Findings come the worst first; so do places and rules. */
export function byPlace(file: BuildFile, findings: readonly TradeFinding[]): PlaceGroup[] {
  const faces = new Map(file.zones.map(({ key, face }) => [key, face]));
  const places = new Map<string, Map<string, TradeFinding[]>>();
  for (const finding of findings) {
    const [zone] = finding.zones;
    const place = zone === undefined ? 'The whole van' : FACE_WORDS[faces.get(zone) ?? 'elsewhere'];
    const rules = places.get(place) ?? new Map<string, TradeFinding[]>();
    places.set(place, rules);
    rules.set(finding.rule, [...(rules.get(finding.rule) ?? []), finding]);
  }
  return [...places].map(([place, rules]) => ({
    place,
    rules: [...rules].map(([rule, own]) => ({
      rule,
      title: titleOf(rule),
      reason: own[0]!.reason,
      harm: own[0]!.harm,
      findings: own,
    })),
  }));
}

export function titleOf(rule: string): string {
  return ruleOf(rule)?.title ?? rule;
}

/** "2 begun already and 1 missing": how the findings stand. */
export function standingCounts(findings: readonly TradeFinding[]): string {
  return list(
    STANDINGS.flatMap((standing) => {
      const number = findings.filter((finding) => finding.standing === standing).length;
      return number === 0 ? [] : [`${number} ${STANDING_WORDS[standing]}`];
    }),
  );
}

export interface RepairWords {
  /** For the button and the history. */
  readonly verb: string;
  readonly label: string;
  /** What it does, a sentence. */
  readonly does: string;
}

export function repairWords(file: BuildFile, repair: TradeRepair): RepairWords {
  const names = namesOf(file);
  if (repair.kind === 'link') {
    const order = list(repair.links.map(({ from, to }) => `${names.task(from)} before ${names.task(to)}`));
    const many = repair.links.length > 1;
    return {
      verb: repair.drops.length > 0 ? 'Turn the link round' : many ? 'Add the links' : 'Add the link',
      label: `Put ${order}`,
      does: `${repair.drops.length > 0 ? 'Turn the link round, so that it puts' : many ? 'Add links that put' : 'Add a link that puts'} ${order}, with this reason.`,
    };
  }
  const name = entryName(repair.entry);
  const where = [
    ...(repair.after.length === 0 ? [] : [`after ${list(repair.after.map(names.task))}`]),
    ...(repair.before.length === 0 ? [] : [`before ${list(repair.before.map(names.task))}`]),
  ];
  return {
    verb: 'Add the task',
    label: `Add “${name}”`,
    does: `Add the task “${name}”${where.length === 0 ? '' : `, ${list(where)}`}.`,
  };
}

function entryName(entry: string): string {
  const known = CATALOGUE_TASKS.find(({ key }) => key === entry)?.name;
  return known ?? capital(kindOf(entry)?.name ?? kindName(entry));
}
