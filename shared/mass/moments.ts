/**
 * Axle and side loads by moments. The van is a beam on two supports, the axles: what sits x behind the front one loads
 * the rear one with m·x / wheelbase and the front one with the rest. Behind the rear axle x is longer than the
 * wheelbase, so the rear takes more than the mass itself and the front becomes lighter: a lever.
 */

/** Grams at a place, millimetres. Null: nobody says where, so the middle is taken. */
export interface Placed {
  readonly mass: number;
  readonly x: number | null;
  readonly y: number | null;
}

/** Grams; front and rear are null without a wheelbase, the sides without a track. */
export interface Loads {
  readonly total: number;
  readonly front: number | null;
  readonly rear: number | null;
  readonly left: number | null;
  readonly right: number | null;
}

/** The bare van: its own axle loads, null where not known. */
export interface Bare {
  readonly total: number;
  readonly rear: number | null;
}

/**
 * Front and rear add up to the total, left and right too: of each pair one is rounded and the other takes the rest.
 * @param bare counts on the middle line: no scale tells its sides apart
 */
export function loadsOf(
  bare: Bare,
  placed: readonly Placed[],
  wheelbase: number | null,
  track: number | null,
): Loads {
  let total = bare.total;
  let momentX = 0;
  let momentY = 0;
  for (const { mass, x, y } of placed) {
    total += mass;
    momentX += mass * (x ?? (wheelbase ?? 0) / 2);
    momentY += mass * (y ?? 0);
  }
  const rear = wheelbase === null || bare.rear === null ? null : bare.rear + Math.round(momentX / wheelbase);
  const left = track === null ? null : Math.round(total / 2 + momentY / track);
  return {
    total,
    front: rear === null ? null : total - rear,
    rear,
    left,
    right: left === null ? null : total - left,
  };
}
