/** The stops of the tour: real sheets at real things of the build at hand, each in a few sentences. */
import type { BuildFile } from '#shared/contract/build-file.ts';
import type { Closing, Plan } from '#shared/contract/plan.ts';
import { shortName } from '#shared/covers/names.ts';
import { count, dayWords } from '../drawing/words.ts';
import { nameOfPurchase } from '../drawing/purchase-name.ts';
import { missesOf, nextClosings } from '../state/amber.ts';

export interface Stop {
  readonly name: string;
  /** The sheet and what it shows, as `here.to` takes them. */
  readonly at: readonly [view: string, ...rest: string[]];
  readonly query: string;
  readonly words: string;
}

export function stopsOf(file: BuildFile, plan: Plan): readonly Stop[] {
  const closing = nextClosings(plan)[0] ?? null;
  return [
    {
      name: 'the shell',
      at: ['shell'],
      query: '',
      words:
        'Your van unfolded, its front on top. Each band is a depth of one zone, with the bare metal lowest. Solid is covered, hatched is in, a faint frame is still planned; a heavy line is a lid that shuts all behind it.',
    },
    closingStop(closing, file, plan),
    whyStop(closing, file, plan),
    {
      name: 'today',
      at: ['today'],
      query: '',
      words:
        'Say how many hours you have and who is there. On top stands one set of tasks that fits them, with the reason beside each; below, what closes next and what to order this week.',
    },
    orderStop(file, plan),
    {
      name: 'undo',
      at: ['history'],
      query: '',
      words:
        'Every change stands here, with who made it and when. Undo takes back the last one, and Redo makes it again, tomorrow as well: on top of each sheet, on a phone under More, or by Ctrl Z. So try things.',
    },
  ];
}

function closingStop(closing: Closing | null, file: BuildFile, { asOf }: Plan): Stop {
  const at = closing === null ? (['shell'] as const) : (['shell', closing.zone] as const);
  if (closing === null)
    return {
      name: 'a closing',
      at,
      query: '',
      words:
        'Once a task hides what is behind it, its start is a closing. Nothing closes ahead in this plan; where something does, the section of its zone lists all it still misses.',
    };
  const zone = file.zones.find(({ key }) => key === closing.zone);
  const misses = missesOf(closing);
  return {
    name: 'a closing',
    at,
    query: '',
    words: `${closing.zone}${zone === undefined ? '' : ` (${zone.name})`} closes on ${dayWords(closing.on!, asOf)}: that day “${nameOf(file, closing.by)}” starts and hides ${count(closing.behind, 'task')}. ${
      misses === 0
        ? 'All behind it is in.'
        : `It still misses ${count(misses, 'thing')}: work, checks or parts. The section of the zone says which.`
    }`,
  };
}

/** The task that closes next, else the first with a date: why it starts when it does. */
function whyStop(closing: Closing | null, file: BuildFile, plan: Plan): Stop {
  const key =
    closing?.by ??
    Object.keys(plan.tasks)
      .filter((one) => plan.tasks[one]!.state === 'not-started' && plan.tasks[one]!.dates !== null)
      .toSorted((a, b) => (plan.tasks[a]!.dates!.start < plan.tasks[b]!.dates!.start ? -1 : 1))[0];
  const name = 'why a date';
  const general =
    'Press any bar, and beside it stands the one thing that holds its start: a task, a person, a part, the season.';
  const planned = key === undefined ? undefined : plan.tasks[key];
  if (key === undefined || planned?.dates == null)
    return { name, at: ['schedule'], query: '', words: general };
  return {
    name,
    at: ['schedule'],
    query: `?task=${encodeURIComponent(key)}`,
    words: `“${nameOf(file, key)}” starts on ${dayWords(planned.dates.start, plan.asOf)}. ${planned.because === null ? '' : `${planned.because.words} `}${general}`,
  };
}

/** The purchase with the soonest order-by day. */
function orderStop(file: BuildFile, { purchases, asOf }: Plan): Stop {
  const name = 'an order-by day';
  const open = file.purchases
    .filter(({ state, key }) => (state === 'wanted' || state === 'quoted') && purchases[key]?.orderBy != null)
    .toSorted((a, b) => (purchases[a.key]!.orderBy! < purchases[b.key]!.orderBy! ? -1 : 1));
  const [first] = open;
  if (first === undefined)
    return {
      name,
      at: ['purchases'],
      query: '',
      words:
        'Whatever has to be bought stands here with the last day to order it, so that no evening waits for a parcel.',
    };
  return {
    name,
    at: ['purchases', first.key],
    query: '',
    words: `${nameOfPurchase(first)} ${purchases[first.key]!.orderBy! < asOf.slice(0, 10) ? 'was to be' : 'is to be'} ordered by ${dayWords(purchases[first.key]!.orderBy!, asOf)}: later, and at its slowest, it keeps the task that needs it waiting. Every part has such a day.`,
  };
}

function nameOf({ tasks }: BuildFile, key: string): string {
  return shortName(tasks.find((task) => task.key === key)?.name ?? key);
}
