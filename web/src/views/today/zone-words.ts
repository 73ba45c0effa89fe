/** Zones named together: "floor, front, middle and rear" instead of the face three times over. */
import { list } from '../../drawing/words.ts';

/** @param names as the build writes them: the face, a comma, the bay */
export function zoneWords(names: readonly string[]): string {
  const faces = new Map<string, string[]>();
  for (const name of names) {
    const comma = name.indexOf(', ');
    const face = comma < 0 ? name : name.slice(0, comma);
    faces.set(face, [...(faces.get(face) ?? []), ...(comma < 0 ? [] : [name.slice(comma + 2)])]);
  }
  return list([...faces].map(([face, bays]) => (bays.length === 0 ? face : `${face}, ${list(bays)}`)));
}
