/** Places as they are chosen: per zone some depths, and up to which one the task puts things out of reach. */
import type { Zone } from '#shared/contract/shell.ts';
import type { Place } from '#shared/contract/task.ts';

/** The places of a zone with one depth put in or taken out. What it hides moves to the place furthest in front. */
export function withDepth(places: readonly Place[], zone: Zone, depth: string, works: boolean): Place[] {
  const others = places.filter((place) => place.zone !== zone.key || place.depth !== depth);
  if (!works) return withHides(others, zone, hiddenBy(places, zone));
  return withHides([...others, { zone: zone.key, depth, hides: null }], zone, hiddenBy(places, zone));
}

/** Sets what the task hides in a zone, on its place furthest in front; null: nothing. */
export function withHides(places: readonly Place[], zone: Zone, hides: string | null): Place[] {
  const at = (place: Place) => zone.depths.indexOf(place.depth);
  const front = Math.max(-1, ...places.filter((place) => place.zone === zone.key).map(at));
  return places.map((place) =>
    place.zone !== zone.key ? place : { ...place, hides: at(place) === front ? hides : null },
  );
}

/** The furthest depth the task hides in the zone; null where it hides none. */
export function hiddenBy(places: readonly Place[], zone: Zone): string | null {
  const hidden = places
    .filter((place) => place.zone === zone.key && place.hides !== null)
    .map(({ hides }) => zone.depths.indexOf(hides!));
  return zone.depths[Math.max(-1, ...hidden)] ?? null;
}

/** The places of one zone carried over to another, as far as that has the depths. */
export function likeIn(places: readonly Place[], from: string, to: Zone): Place[] {
  const carried = places
    .filter((place) => place.zone === from && to.depths.includes(place.depth))
    .map((place) => ({
      zone: to.key,
      depth: place.depth,
      hides: place.hides !== null && to.depths.includes(place.hides) ? place.hides : null,
    }));
  return [...places.filter((place) => place.zone !== to.key), ...carried];
}
