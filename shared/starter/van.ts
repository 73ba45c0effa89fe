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
  /** Zones of the face, front to rear; each with its bay, or null for the whole face. */
  readonly zones: readonly { readonly key: string; readonly name: string; readonly bay: number | null }[];
}

/** Names of the bays, front to rear, by how many there are. */
const BAYS = {
  2: ['front', 'rear'],
  3: ['front', 'middle', 'rear'],
  4: ['front', 'second', 'third', 'rear'],
} as const;
export type Bays = keyof typeof BAYS;
export type FacesOfVan = readonly FaceOfVan[];

/** The faces with their zones; the sliding door takes the front bay of the right wall. */
export function facesOfVan(count: Bays): FacesOfVan {
  const bays = (letter: string, name: string, from = 1): FaceOfVan['zones'] =>
    BAYS[count]
      .map((bay, i) => ({ key: `${letter}${i + 1}`, name: `${name}, ${bay}`, bay: i + 1 }))
      .slice(from - 1);
  const whole = (letter: string, face: Face, name: string): FaceOfVan => ({
    letter,
    face,
    zones: [{ key: letter, name, bay: null }],
  });
  return [
    { letter: 'L', face: 'left', zones: bays('L', 'left wall') },
    { letter: 'F', face: 'floor', zones: bays('F', 'floor') },
    { letter: 'S', face: 'right', zones: [{ key: 'R1', name: 'sliding door', bay: 1 }] },
    { letter: 'R', face: 'right', zones: bays('R', 'right wall', 2) },
    { letter: 'C', face: 'ceiling', zones: bays('C', 'ceiling') },
    whole('B', 'front', 'bulkhead'),
    whole('D', 'rear', 'rear doors'),
    whole('U', 'underbody', 'underbody'),
    whole('T', 'roof', 'roof, outside'),
    whole('EL', 'outside-left', 'left side, outside'),
    whole('ER', 'outside-right', 'right side, outside'),
    whole('K', 'cab', 'cab and engine bay'),
  ];
}

/** The van of the catalogue: a medium wheelbase with three bays. */
export const FACES_OF_VAN = facesOfVan(3);

export interface ParsedPlace {
  readonly zones: readonly string[];
  readonly depth: string;
  readonly hides: string | null;
}

/** `L:insulation>fixing` → its zones, depth and what it hides. @throws RangeError for a face the van has not */
export function parsePlace(text: string, van = FACES_OF_VAN): ParsedPlace {
  const [where = '', what = ''] = text.split(':');
  const [depth = '', hides = null] = what.split('>');
  return { zones: zonesCalled(where, van), depth, hides };
}

function zonesCalled(where: string, van: FacesOfVan): readonly string[] {
  for (const { letter, zones } of van) {
    if (letter === where) return zones.map(({ key }) => key);
    const single = zones.find(({ key }) => key === where);
    if (single !== undefined) return [single.key];
  }
  throw new RangeError(`no face or zone ${where}`);
}

const FROM_METAL = DEPTHS.map(({ key }) => key);

/**
 * Every zone with the depths that some task works at there, in the order of the stack.
 * @param stackOf all depths of a face, from bare metal
 */
export function zonesOf(
  tasks: readonly CatalogueTask[],
  van = FACES_OF_VAN,
  stackOf: (face: Face) => readonly string[] = () => FROM_METAL,
): Zone[] {
  const used = new Map<string, Set<string>>();
  for (const { places = [] } of tasks)
    for (const text of places) {
      const { zones, depth } = parsePlace(text, van);
      for (const zone of zones) used.set(zone, (used.get(zone) ?? new Set()).add(depth));
    }
  return van.flatMap(({ face, zones }) =>
    zones.map(({ key, name, bay }) => ({
      key,
      name,
      face,
      bay,
      capacity: 1,
      depths: stackOf(face).filter((depth) => used.get(key)?.has(depth)),
    })),
  );
}
