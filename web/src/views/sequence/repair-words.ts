/** What a repair does, said before it is done; what must be asked first; and the build in which it is done. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Repair } from '#shared/contract/plan.ts';
import { applyRepair, type RepairContext } from '#shared/covers/apply-repair.ts';
import { namesOf } from '#shared/covers/names.ts';
import { duration, list } from '../../drawing/words.ts';

export interface RepairWords {
  /** "Drop the link from “Battens” to “Filler hose”". Stands in the list and in the history. */
  readonly does: string;
  /** What it means for the builder, one sentence. */
  readonly means: string;
  readonly asks: 'reason' | 'signature' | null;
  /** The word on its button. */
  readonly verb: string;
}

export function repairWords(file: BuildFile, repair: Repair): RepairWords {
  const names = namesOf(file);
  switch (repair.kind) {
    case 'drop-links': {
      const { links, exact } = repair;
      const said = links.map(({ from, to }) => `from ${names.task(from)} to ${names.task(to)}`);
      return {
        does: `Drop the ${links.length === 1 ? 'link' : 'links'} ${list(said)}`,
        means: exact
          ? 'The smallest change that puts it right; what covers what stays as it is.'
          : 'What covers what stays as it is.',
        asks: null,
        verb: links.length === 1 ? 'Drop the link' : 'Drop the links',
      };
    }
    case 'split':
      return {
        does: `Split ${names.task(repair.task)} by zone`,
        means: `Its part in ${names.zone(repair.zone)} becomes a task of its own, with its share of the hours and the same links.`,
        asks: null,
        verb: 'Split it',
      };
    case 'exception':
      return {
        does: `Free ${names.task(repair.inner)} from ${names.task(repair.cover)}`,
        means:
          'For work that can still be reached behind it: through a hatch, from outside, from the next bay.',
        asks: 'reason',
        verb: 'Free the pair',
      };
    case 'drop-place':
      return {
        does: `Take ${names.task(repair.task)} out of ${names.zone(repair.zone)}, ${names.depth(repair.depth)}`,
        means: 'For a task that does not work there after all.',
        asks: null,
        verb: 'Take it out',
      };
    case 'sign': {
      const check = file.tasks
        .find(({ key }) => key === repair.task)
        ?.holdPoints.find(({ key }) => key === repair.holdPoint);
      return {
        does: `Sign the check “${check?.name ?? repair.holdPoint}” of ${names.task(repair.task)}`,
        means: 'Only if it was made. What it read, and who read it, stands in the records.',
        asks: 'signature',
        verb: 'Sign the check',
      };
    }
    case 'reopen':
      return {
        does: `Take ${list(repair.tasks.map(names.task))} off again: ${duration(repair.personMinutes)} off and back`,
        means: `${repair.tasks.length === 1 ? 'It becomes' : 'They become'} work again, with those hours and fresh checks; logged hours stay.`,
        asks: null,
        verb: 'Take it off again',
      };
    case 'drop-fixed-start':
      return {
        does: `Free the fixed date of ${names.task(repair.task)}`,
        means: 'It then starts as soon as all before it allows.',
        asks: null,
        verb: 'Free the date',
      };
  }
}

/** As `applyRepair`, with the reading of a check that is signed. @throws PlanError `repair-gone` */
export function repaired(
  file: BuildFile,
  repair: Repair,
  context: RepairContext & { readonly reading: string },
): BuildFile {
  const after = applyRepair(file, repair, context);
  const reading = context.reading.trim();
  if (repair.kind !== 'sign' || reading === '') return after;
  return {
    ...after,
    tasks: after.tasks.map((task) =>
      task.key !== repair.task
        ? task
        : {
            ...task,
            holdPoints: task.holdPoints.map((hold) =>
              hold.key !== repair.holdPoint
                ? hold
                : {
                    ...hold,
                    attempts: hold.attempts.map((one, i, all) =>
                      i === all.length - 1 ? { ...one, reading } : one,
                    ),
                  },
            ),
          },
    ),
  };
}

/** Two repairs that would do the same. */
export function repairName(repair: Repair): string {
  return JSON.stringify(repair);
}
