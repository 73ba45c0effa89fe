/**
 * What a van may have beside those of the catalogue's one van: tasks, links and parts in the same words. Hours, prices,
 * masses and lead times are invented; the order and its reasons are common practice.
 */
import type { LinkWhy } from '../contract/task.ts';
import type { CatalogueLink, CataloguePart, CatalogueTask } from './catalogue.ts';
import linkRows from './extra-links.json' with { type: 'json' };
import partRows from './extra-parts.json' with { type: 'json' };
import taskRows from './extra-tasks.json' with { type: 'json' };

export const EXTRA_TASKS = taskRows as unknown as readonly CatalogueTask[];
export const EXTRA_PARTS = partRows as unknown as readonly CataloguePart[];
export const EXTRA_LINKS: readonly CatalogueLink[] = (linkRows as [string, string, LinkWhy, string][]).map(
  ([from, to, why, reason]) => ({ from, to, why, reason }),
);
