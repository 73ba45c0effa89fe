/**
 * What could still be left out of the build, and takes a task with it. What several others stand on is nobody's option:
 * a pipe stays as long as one of two appliances burns its gas.
 */
import type { CatalogueTask } from './catalogue.ts';
import type { Facts } from './facts.ts';

/** The name of the option, or null: the build is not one without this task. */
export function optionOf({ key, option }: CatalogueTask, facts: Facts): string | null {
  if (key === 'roof-gland') return only([facts.panels && 'solar panels', facts.workLights && 'work lights']);
  if (option === 'gas')
    return only([
      facts.heater === 'gas' && 'heater',
      facts.cooking === 'gas' && 'gas hob',
      facts.hotWater === 'gas' && 'hot water',
    ]);
  if (option === 'mains')
    return only([facts.inlet && 'mains', facts.cooking === 'induction' && 'induction hob']);
  if (option === 'water') return facts.warmWater || facts.wasteWater !== 'none' ? null : 'water';
  return option ?? null;
}

/** The one that is there, if it is the only one. */
function only(options: readonly (string | false)[]): string | null {
  const there = options.filter((option) => option !== false);
  return there.length === 1 ? there[0]! : null;
}
