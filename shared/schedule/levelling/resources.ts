/** Everything of which there is only so much: people, single tools, zones and groups of zones, over time. */
import { byKey } from '../../contract/by-key.ts';
import type { Task } from '../../contract/task.ts';
import type { Basis } from '../basis.ts';
import type { WorkingSet } from '../../time/working-set.ts';
import { Busy } from './busy.ts';
import { Room } from './room.ts';
import { Taken } from './taken.ts';

export interface NamedRoom {
  /** A zone's key, or a group's. */
  readonly key: string;
  readonly room: Room;
}

export class Resources {
  readonly #people: ReadonlyMap<string, Busy>;
  readonly #tools: ReadonlyMap<string, Busy>;
  readonly #taken = new Map<number, Taken>();
  /** Per zone: itself, then its groups. */
  readonly #zones = new Map<string, NamedRoom[]>();

  constructor({ file }: Basis) {
    this.#people = new Map(file.people.map(({ key }) => [key, new Busy()]));
    this.#tools = new Map(file.tools.map(({ key }) => [key, new Busy()]));
    for (const { key, capacity } of file.zones) this.#zones.set(key, [{ key, room: new Room(capacity) }]);
    for (const group of file.zoneGroups) {
      const named = { key: group.key, room: new Room(group.capacity) };
      for (const zone of group.zones) this.#zones.get(zone)!.push(named);
    }
  }

  person(key: string): Busy {
    return this.#people.get(key)!;
  }

  tool(key: string): Busy {
    return this.#tools.get(key)!;
  }

  /** What of that set is taken, by its people or its tools. A set's number never stands for others. */
  takenIn(
    number: number,
    sets: readonly WorkingSet[],
    people: readonly string[],
    tools: readonly string[],
  ): Taken {
    let taken = this.#taken.get(number);
    if (taken === undefined) {
      const sources = [...people.map((key) => this.person(key)), ...tools.map((key) => this.tool(key))];
      taken = new Taken(sets[number]!, sources);
      this.#taken.set(number, taken);
    }
    return taken;
  }

  /** As if nothing had been placed yet. */
  clear(): void {
    for (const busy of this.#people.values()) busy.clear();
    for (const busy of this.#tools.values()) busy.clear();
    for (const [{ room }, ...groups] of this.#zones.values() as Iterable<[NamedRoom, ...NamedRoom[]]>) {
      room.clear();
      for (const group of groups) group.room.clear();
    }
  }

  /** The zones a task works in and the groups they belong to, each once, by key, zones first. */
  roomsOf(task: Task): NamedRoom[] {
    const zones = [...new Set(task.places.map(({ zone }) => zone))].sort();
    const rooms = zones.map((zone) => this.#zones.get(zone)!);
    const groups = new Set(rooms.flatMap(([, ...groups]) => groups));
    return [...rooms.map(([zone]) => zone!), ...[...groups].sort(byKey)];
  }
}
