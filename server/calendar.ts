/**
 * Events as an iCalendar text (RFC 5545). Local times stay without a zone. `SEQUENCE` is the build's revision: it rises
 * with every change and never falls, so a calendar always takes the newer of two.
 */
import ical, { ICalEventTransparency } from 'ical-generator';
import type { CalendarEvent, EventKind } from '#shared/exchange/calendar.ts';

export interface CalendarOf {
  readonly build: string;
  readonly name: string;
  readonly revision: number;
  /** When the build was last changed, an ISO instant with its zone. */
  readonly changedAt: string;
}

const CATEGORIES: Readonly<Record<EventKind, string>> = {
  work: 'Work',
  closing: 'Closing',
  order: 'Order',
  check: 'Check',
  decision: 'Decision',
};

export function calendarText(of: CalendarOf, events: readonly CalendarEvent[]): string {
  const { build, name, revision, changedAt } = of;
  const stamp = new Date(changedAt);
  const calendar = ical({
    prodId: { company: 'Coverlast', product: 'Coverlast', language: 'EN' },
    name: plain(name),
    ttl: 60 * 60,
  });
  for (const { id, kind, start, end, title, words } of events) {
    const isTimed = kind === 'work';
    calendar.createEvent({
      id: `${id}@${build}.coverlast`,
      start: asDate(start),
      end: asDate(end),
      ...(isTimed ? { floating: true } : { allDay: true }),
      summary: plain(title),
      ...(words === '' ? {} : { description: plain(words) }),
      categories: [{ name: CATEGORIES[kind] }],
      // What lasts all day takes nobody's time.
      transparency: isTimed ? ICalEventTransparency.OPAQUE : ICalEventTransparency.TRANSPARENT,
      sequence: revision,
      stamp,
      lastModified: stamp,
    });
  }
  return calendar.toString();
}

/** The library writes the fields of UTC where an event has no zone. */
function asDate(written: string): Date {
  return new Date(written.length === 10 ? `${written}T00:00Z` : `${written}Z`);
}

/** Line ends as the format has them. */
function plain(text: string): string {
  return text.replaceAll(/\r\n?/g, '\n');
}
