/**
 * The money of the trade catalogue, bought whole: 22,961 EUR, per phase and per group as the catalogue's own notes sum
 * them (prices invented; the sums were worked out from the catalogue's table, not by this program).
 */
import { describe, expect, it } from 'vitest';
import { computePlan } from '#shared/plan.ts';
import { CATALOGUE_PARTS, CATALOGUE_PHASES, CATALOGUE_TASKS } from '#shared/starter/catalogue.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { makeBuild, NOW, task } from '../support/builds.ts';

/** Euro, by phase in order. */
const PHASES = [465, 15, 471, 2373, 1533, 944, 936, 1852, 1002, 1137, 1956, 3258, 5374, 1645];
/** Euro, by group of parts. */
const GROUPS: Readonly<Record<string, number>> = {
  consumable: 178,
  tool: 913,
  hire: 70,
  fee: 797,
  paint: 476,
  sealant: 391,
  metal: 32,
  opening: 1971,
  roof: 579,
  outside: 886,
  damping: 150,
  fixing: 581,
  floor: 908,
  underbody: 482,
  heat: 1355,
  water: 1287,
  electric: 4458,
  insulation: 964,
  lining: 992,
  furniture: 3010,
  appliance: 1051,
  safety: 132,
  trim: 300,
  soft: 736,
  paper: 42,
  spares: 220,
};

describe('the trade catalogue, bought whole', () => {
  const phaseOf = new Map(CATALOGUE_TASKS.map(({ key, phase }) => [key, phase]));
  const { money } = computePlan(
    makeBuild({
      phases: CATALOGUE_PHASES,
      tasks: CATALOGUE_TASKS.map(({ key, phase }) => task(key, 60, { phase })),
      // One purchase a group of parts, so that the groups are summed by the ledger too.
      purchases: Object.keys(GROUPS).map((group) => ({
        key: group,
        lines: CATALOGUE_PARTS.filter((part) => part.group === group).map((part) => ({
          key: part.key,
          name: part.name,
          category: part.category,
          phase: phaseOf.get(part.usedIn)!,
          neededBy: [part.usedIn],
          quantity: part.quantity,
          unitPrice: part.unitPrice,
        })),
      })),
    }),
    { now: NOW },
  );

  it('should come to 22,961 euro, all of it to buy and as planned', () => {
    expect(money.total).toMatchObject({ plan: 2_296_100, toBuy: 2_296_100, forecast: 2_296_100, over: 0 });
    expect(money.total.unconfirmedLines).toBe(153);
  });

  it('should come to the same for each phase', () => {
    expect(CATALOGUE_PHASES.map(({ key }) => money.phases[key]!.forecast)).toEqual(
      PHASES.map((euro) => euro * 100),
    );
    expect(CATALOGUE_PHASES.map(({ budget }) => budget)).toEqual(PHASES.map((euro) => euro * 100));
  });

  it('should come to the same for each group of parts', () => {
    const found = Object.entries(money.purchases).map(([group, { total }]) => [group, total / 100]);
    expect(Object.fromEntries(found)).toEqual(GROUPS);
  });

  it('should give each task the parts it uses, together the same sum', () => {
    const tasks = Object.values(money.tasks).map(({ forecast }) => forecast);
    expect(tasks.reduce((a, b) => a + b, 0)).toBe(2_296_100);
  });
});

describe('the money of the demo', () => {
  const file = wagtail();
  const { money } = computePlan(file, { now: NOW });

  it('should be planned as the catalogue is, with what the story paid more, and one camera refunded', () => {
    expect(money.total.plan).toBe(2_296_100);
    expect(money.total.paid + money.total.ordered + money.total.toBuy).toBe(money.total.forecast);
    expect(money.purchases['camera-wrong']).toMatchObject({ total: 12_900, paid: 0, open: 0 });
  });

  it('should take its contingency from a budget of 27,000: 22,500 for parts and 20 % on top', () => {
    expect(money.contingency).toMatchObject({
      ceiling: 2_700_000,
      forParts: 2_250_000,
      amount: 450_000,
      usedByPlan: 46_100,
    });
    expect(money.contingency.left).toBe(2_700_000 - money.total.forecast);
  });
});
