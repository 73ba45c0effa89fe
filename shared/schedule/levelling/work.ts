/**
 * What placing needs to know of each task, worked out once for however many lists: who could do it, with what, where.
 * Its resources are those of one `Resources`, which is emptied before each list.
 */
import type { Basis } from '../basis.ts';
import { NOT_BEGUN, type Network } from '../network.ts';
import type { WorkingSet } from '../../time/working-set.ts';
import type { Busy } from './busy.ts';
import type { NamedRoom, Resources } from './resources.ts';
import type { Taken } from './taken.ts';
import { teamsFor, type Team } from './teams.ts';

export interface NamedBusy {
  readonly key: string;
  readonly busy: Busy;
}

/** A team with its people at hand and what is taken of the set they share. */
export interface Crew extends Team {
  readonly members: readonly NamedBusy[];
  readonly taken: Taken;
}

export interface Work {
  readonly v: number;
  readonly minutes: number;
  readonly sitting: number;
  /** By key; empty when there are not enough people, and for a task without minutes, which needs nobody. */
  readonly crews: readonly Crew[];
  readonly tools: readonly NamedBusy[];
  readonly rooms: readonly NamedRoom[];
  /** Its rooms stay shut through its wait. */
  readonly holdsRooms: boolean;
  readonly isBegun: boolean;
}

/** Per task node. @param ids task keys by node */
export function workOf(
  basis: Basis,
  net: Network,
  sets: readonly WorkingSet[],
  ids: readonly string[],
  resources: Resources,
): Work[] {
  return Array.from({ length: net.taskCount }, (_, v) => {
    const task = basis.taskOf.get(ids[v]!)!;
    const minutes = net.minutes[v]!;
    const tools = task.tools.toSorted().map((key) => ({ key, busy: resources.tool(key) }));
    const crewOf = (team: Team): Crew => ({
      ...team,
      members: team.people.map((key) => ({ key, busy: resources.person(key) })),
      taken: resources.takenIn(team.set, sets, team.people, task.tools),
    });
    return {
      v,
      minutes,
      sitting: net.sitting[v]!,
      crews: minutes === 0 ? [] : teamsFor(basis, task).map(crewOf),
      tools,
      // An unsigned check keeps a finished task in the network, but nobody is in the zone for it.
      rooms: task.state === 'finished' ? [] : resources.roomsOf(task),
      holdsRooms: task.waitHoldsZones,
      isBegun: net.begun[v] !== NOT_BEGUN,
    };
  });
}
