/** Everything of which there is only so much: people, single tools, zones and groups of zones, over time. */
import type { Task } from '../../contract/task.ts';
import type { Basis } from '../basis.ts';
import { Busy } from './busy.ts';
import { Room } from './room.ts';

export interface NamedRoom {
  /** A zone's key, or a group's. */
  readonly key: string;
  readonly room: Room;
}

export class Resources {
  readonly #people: ReadonlyMap<string, Busy>;
  readonly #tools: ReadonlyMap<string, Busy>;
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

  /** The zones a task works in and the groups they belong to, each once. */
  roomsOf(task: Task): NamedRoom[] {
    const rooms = new Map<string, NamedRoom>();
    for (const { zone } of task.places)
      for (const named of this.#zones.get(zone)!) rooms.set(named.key, named);
    return [...rooms.values()];
  }
}
