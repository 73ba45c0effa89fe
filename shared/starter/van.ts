/**
 * The vehicle of the catalogue: faces, bays and the depths that can lie on each other there. A zone lists only the
 * depths that some task uses.
 */
import type { Depth, Face, Zone } from '../contract/shell.ts';
import type { CatalogueTask } from './catalogue.ts';

/** From bare metal to the room, then what lies on the outside. A zone's stack keeps this order. */
export const DEPTHS: readonly Depth[] = [
  { key: 'metal', name: 'bare metal', hatch: 'metal' },
  { key: 'opening', name: 'openings', hatch: 'opening' },
  { key: 'damping', name: 'damping', hatch: 'damping' },
  { key: 'fixing', name: 'fixing points', hatch: 'fixing' },
  { key: 'insulation', name: 'insulation', hatch: 'sheet' },
  { key: 'services', name: 'wires and pipes', hatch: 'wire' },
  { key: 'fill', name: 'rib fill', hatch: 'fill' },
  { key: 'film', name: 'vapour film', hatch: 'film' },
  { key: 'batten', name: 'battens', hatch: 'batten' },
  { key: 'rail', name: 'rails', hatch: 'rail' },
  { key: 'backing', name: 'sub-floor', hatch: 'ply' },
  { key: 'finish', name: 'lining', hatch: 'ply' },
  { key: 'skirting', name: 'skirting runs', hatch: 'wire' },
  { key: 'furniture', name: 'furniture', hatch: 'furniture' },
  { key: 'trim', name: 'trim', hatch: 'trim' },
  { key: 'seal', name: 'outer seal', hatch: 'wax' },
  { key: 'fit', name: 'outer fittings', hatch: 'cells' },
];

interface FaceOfVan {
  readonly letter: string;
  readonly face: Face;
  readonly name: string;
  /** Zones of the face, front to rear; each with its bay, or null for the whole face. */
  readonly zones: readonly { readonly key: string; readonly name: string; readonly bay: number | null }[];
}

const BAYS = ['front', 'middle', 'rear'];

function bays(letter: string, name: string, from = 1): FaceOfVan['zones'] {
  return BAYS.map((bay, i) => ({ key: `${letter}${i + 1}`, name: `${name}, ${bay}`, bay: i + 1 })).slice(
    from - 1,
  );
}

function whole(key: string, name: string): FaceOfVan['zones'] {
  return [{ key, name, bay: null }];
}

/** A medium wheelbase with three bays; the sliding door takes the front bay of the right wall. */
export const FACES_OF_VAN: readonly FaceOfVan[] = [
  { letter: 'L', face: 'left', name: 'left wall', zones: bays('L', 'left wall') },
  { letter: 'F', face: 'floor', name: 'floor', zones: bays('F', 'floor') },
  { letter: 'S', face: 'right', name: 'sliding door', zones: [{ key: 'R1', name: 'sliding door', bay: 1 }] },
  { letter: 'R', face: 'right', name: 'right wall', zones: bays('R', 'right wall', 2) },
  { letter: 'C', face: 'ceiling', name: 'ceiling', zones: bays('C', 'ceiling') },
  { letter: 'B', face: 'front', name: 'bulkhead', zones: whole('B', 'bulkhead') },
  { letter: 'D', face: 'rear', name: 'rear doors', zones: whole('D', 'rear doors') },
  { letter: 'U', face: 'underbody', name: 'underbody', zones: whole('U', 'underbody') },
  { letter: 'T', face: 'roof', name: 'roof, outside', zones: whole('T', 'roof, outside') },
  {
    letter: 'EL',
    face: 'outside-left',
    name: 'left side, outside',
    zones: whole('EL', 'left side, outside'),
  },
  {
    letter: 'ER',
    face: 'outside-right',
    name: 'right side, outside',
    zones: whole('ER', 'right side, outside'),
  },
  { letter: 'K', face: 'cab', name: 'cab and engine bay', zones: whole('K', 'cab and engine bay') },
];

export interface ParsedPlace {
  readonly zones: readonly string[];
  readonly depth: string;
  readonly hides: string | null;
}

/** `L:insulation>fixing` → its zones, depth and what it hides. @throws RangeError for a face the van has not */
export function parsePlace(text: string): ParsedPlace {
  const [where = '', what = ''] = text.split(':');
  const [depth = '', hides = null] = what.split('>');
  const face = FACES_OF_VAN.find(({ letter }) => letter === where);
  const zones =
    face?.zones.map(({ key }) => key) ??
    FACES_OF_VAN.flatMap(({ zones: all }) => all.map(({ key }) => key)).filter((key) => key === where);
  if (zones.length === 0) throw new RangeError(`no face or zone ${where}`);
  return { zones, depth, hides };
}

/** Every zone with the depths that some task works at there, in the order of the stack. */
export function zonesOf(tasks: readonly CatalogueTask[]): Zone[] {
  const used = new Map<string, Set<string>>();
  for (const { places = [] } of tasks)
    for (const text of places) {
      const { zones, depth } = parsePlace(text);
      for (const zone of zones) used.set(zone, (used.get(zone) ?? new Set()).add(depth));
    }
  return FACES_OF_VAN.flatMap(({ face, zones }) =>
    zones.map(({ key, name, bay }) => ({
      key,
      name,
      face,
      bay,
      capacity: 1,
      depths: DEPTHS.filter((depth) => used.get(key)?.has(depth.key)).map((depth) => depth.key),
    })),
  );
}
