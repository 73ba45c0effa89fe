/** The catalogue's tasks as this van has them: names, checks, places, hours. What an answer changes stands here once. */
import type { CatalogueTask } from './catalogue.ts';
import type { Facts } from './facts.ts';
import { optionOf } from './leave-out.ts';
import { SIZES } from './sizes.ts';
import { facesOfVan, parsePlace, type FacesOfVan } from './van.ts';
import { checksFor, namesFor } from './wording.ts';

/** @param entries every task this van has */
export function changedTasks(entries: readonly CatalogueTask[], facts: Facts): CatalogueTask[] {
  const names = namesFor(facts);
  const checks = checksFor(facts);
  const fields = fieldsFor(facts);
  return onlyWhereCut(
    entries.map((entry) => {
      const { check, option: _, ...rest } = { ...entry, ...fields[entry.key] };
      const option = optionOf(entry, facts);
      const own: CatalogueTask = {
        ...rest,
        ...(rest.note === undefined ? {} : { note: rest.note.replaceAll(/ +/g, ' ') }),
        name: names[entry.key] ?? entry.name,
        ...(check === undefined ? {} : { check: { ...check, ...checks[entry.key] } }),
        ...(option === null ? {} : { option }),
      };
      return inBays(sized(own, facts), facts);
    }),
    facesOfVan(SIZES[facts.van].bays),
  );
}

type Fields = Readonly<Record<string, Partial<CatalogueTask>>>;

/** Fields that differ from the catalogue's. Hours are invented. */
function fieldsFor(f: Facts): Fields {
  const base: Record<string, Partial<CatalogueTask>> = {
    'side-inlets': {
      // Fridge vents, shore socket, filler: a third of the work each.
      minutes: times([480, 750, 1140], (1 + Number(f.inlet) + Number(f.water)) / 3),
      places: [
        'L2:opening',
        ...(f.inlet ? ['L3:opening'] : []),
        ...(f.water ? ['R3:opening', 'ER:opening', 'ER:seal'] : []),
        'EL:opening',
        'EL:seal',
      ],
    },
  };
  for (const sheet of ['skin-right', 'skin-ceiling', 'skin-arch'])
    base[sheet] = { note: 'Wait: 4-43 C, metal 3 C above dew point; a day to cure' };
  if (f.solar === 'one') base['solar-panels'] = { minutes: [150, 225, 350] };
  if (f.rack) base['solar-rails'] = { kinds: ['solar'], wait: 0, cautions: ['height'], note: '' };
  if (f.heater === 'gas') {
    base['heat-test'] = { cautions: ['exhaust', 'gas', 'electricity'] };
    base['heater-second'] = { cautions: ['exhaust', 'gas'] };
    base['heater-base'] = { cautions: ['exhaust', 'under-vehicle', 'drilling'] };
  }
  if (f.hotWater === 'gas') {
    base['boiler-base'] = { cautions: ['gas', 'exhaust', 'pressure'] };
    base['boiler-fill'] = { cautions: ['gas', 'exhaust', 'pressure'] };
  }
  // Wool takes the place of the sheets as well as that of the loose fill.
  if (f.insulation === 'wool')
    base['fill'] = {
      minutes: [1260, 1980, 2970],
      reopen: 1200,
      note: 'Keep belt pillars, latch rods and body vents free',
    };
  if (!f.fan) base['vapour-check'] = { cautions: [] };
  return base;
}

/** Work along a whole face, and what is cut for it at the bench, grows with the van; work at one place does not. */
function sized(entry: CatalogueTask, { van }: Facts): CatalogueTask {
  const { surface } = SIZES[van];
  const wide =
    entry.kinds.some((kind) => kind === 'bench-cut' || kind === 'bench-finish') ||
    (entry.places ?? []).some((text) => /^(L|R|F|C|U|T|EL|ER):/.test(text));
  return wide && surface !== 1 ? { ...entry, minutes: times(entry.minutes, surface) } : entry;
}

/** To five minutes. */
function times([low, likely, high]: CatalogueTask['minutes'], by: number): CatalogueTask['minutes'] {
  const scaled = (minutes: number) => Math.round((minutes * by) / 5) * 5;
  return [scaled(low), scaled(likely), scaled(high)];
}

/** What runs the length of the rear, in a van whose rear has two bays. */
const ALONG_THE_REAR = new Set(['bed', 'folding-bed', 'rails', 'crate-rack', 'over-right']);

/** Places of three bays, in a van of two or four. The middle of the short van is its front; its right wall is one bay. */
function inBays(entry: CatalogueTask, { van }: Facts): CatalogueTask {
  const { bays } = SIZES[van];
  if (bays === 3 || entry.places === undefined) return entry;
  const places =
    bays === 2
      ? entry.places.map((text) =>
          text
            .replace(/^R3:/, 'R2:')
            .replace(/^([LFC])([23]):/, (_, face: string, bay: string) => `${face}${Number(bay) - 1}:`),
        )
      : entry.places.flatMap((text) =>
          ALONG_THE_REAR.has(entry.key) && /^[LFCR]3:/.test(text) ? [text, text.replace('3:', '4:')] : [text],
        );
  return { ...entry, places: [...new Set(places)] };
}

/** The swarf hunt and the hose test go where something was cut; a place without an opening has nothing to look at. */
function onlyWhereCut(entries: readonly CatalogueTask[], van: FacesOfVan): CatalogueTask[] {
  const followers = new Set(['swarf', 'hose-test-1']);
  const cut = new Set(
    entries
      .filter(({ key }) => !followers.has(key))
      .flatMap(({ places = [] }) => places.flatMap((text) => spots(text, van))),
  );
  return entries.map((entry) =>
    followers.has(entry.key)
      ? {
          ...entry,
          places: entry.places!.flatMap((text) => spots(text, van)).filter((spot) => cut.has(spot)),
        }
      : entry,
  );
}

/** `R:opening` → `R2:opening`, `R3:opening`. */
function spots(text: string, van: FacesOfVan): string[] {
  const { zones, depth } = parsePlace(text, van);
  return zones.map((zone) => `${zone}:${depth}`);
}
