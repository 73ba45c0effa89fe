/** A small van for the trade check: one wall, ceiling, floor and cab with the usual depths, everybody always there. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { TradeFinding } from '#shared/contract/plan-trade.ts';
import { computePlan } from '#shared/plan.ts';
import { makeBuild, NOW, task, type BuildParts } from '../../support/builds.ts';

const DEPTHS = [
  'metal',
  'opening',
  'fixing',
  'insulation',
  'services',
  'film',
  'batten',
  'finish',
  'furniture',
];

const ZONES = [
  { key: 'L', name: 'left wall', face: 'left', depths: DEPTHS },
  { key: 'C', name: 'ceiling', face: 'ceiling', depths: DEPTHS },
  { key: 'F', name: 'floor', face: 'floor', depths: DEPTHS },
  { key: 'K', name: 'cab', face: 'cab', depths: DEPTHS },
];

/** A task of an hour. @param places `L:opening`, or `L:finish>batten` for what it hides */
export function work(
  key: string,
  kinds: readonly string[],
  places: readonly string[] = [],
  more: object = {},
) {
  return task(key, 60, {
    kinds,
    places: places.map((text) => {
      const [zone = '', rest = ''] = text.split(':');
      const [depth = '', hides = null] = rest.split('>');
      return { zone, depth, hides };
    }),
    ...more,
  });
}

export function van(parts: BuildParts & { readonly dismissals?: readonly object[] }): BuildFile {
  return makeBuild({ depths: DEPTHS, zones: ZONES, ...parts });
}

export function findingsOf(file: BuildFile): readonly TradeFinding[] {
  return computePlan(file, { now: NOW }).trade.findings;
}

/** Those of one rule. */
export function ofRule(file: BuildFile, rule: string): readonly TradeFinding[] {
  return findingsOf(file).filter((finding) => finding.rule === rule);
}
