/** The calendar of a build under a secret address, read by another reader of iCalendar (RFC 5545). */
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { wagtail } from '#shared/demo/wagtail.ts';
import type { Loose } from '../support/full-document.ts';
import { FULL, startFull, startServer, type TestServer } from '../support/server.ts';

describe('the calendar', () => {
  it('should say when each task is worked on, as the plan does, in local time', async () => {
    const server = await startServer({ builds: [wagtail()] });
    const { text, address } = await newFeed(server, 'wagtail');
    expect(address).toMatch(/^\/feeds\/[\w-]{43}\.ics$/);
    const events = eventsOf(text);
    const plan = (await server.ask('GET', '/api/builds/wagtail/plan')).body;
    const tasks = plan['tasks'] as Record<
      string,
      { dates: { start: string; finish: string; sittings: unknown[] } | null; state: string }
    >;
    for (const [key, { dates, state }] of Object.entries(tasks)) {
      if (dates === null || state === 'finished') continue;
      const own = events.filter(({ uid }) => new RegExp(`^work\\.${key}\\.\\d+@`).test(uid));
      expect([key, own.length]).toEqual([key, dates.sittings.length]);
      // What is under way began before; its sittings are those still to come.
      if (state === 'not-started')
        expect(own.map(({ startDate }) => startDate.toString()).sort()[0]).toBe(`${dates.start}:00`);
      expect(
        own
          .map(({ endDate }) => endDate.toString())
          .sort()
          .at(-1),
      ).toBe(`${dates.finish}:00`);
      for (const { startDate } of own) expect(startDate.zone.tzid).toBe('floating');
    }
  });

  it('should have closings, order-by days, checks and decide-by days as days', async () => {
    const server = await startServer({ builds: [wagtail()] });
    const events = eventsOf((await newFeed(server, 'wagtail')).text);
    const plan = (await server.ask('GET', '/api/builds/wagtail/plan')).body;
    const of = (kind: string) => events.filter(({ uid }) => uid.startsWith(`${kind}.`));
    const closings = (plan['closings'] as { on: string | null }[]).flatMap(({ on }) => on ?? []);
    expect(
      of('closing')
        .map(({ startDate }) => startDate.toString())
        .sort(),
    ).toEqual(closings.sort());
    for (const kind of ['closing', 'order', 'check', 'decision']) {
      expect(of(kind).length, kind).toBeGreaterThan(0);
      for (const { startDate, duration } of of(kind))
        expect([startDate.isDate, duration.toSeconds()]).toEqual([true, 86_400]);
    }
  });

  it('should be written as RFC 5545 has it: CRLF, lines of 75 octets, no name twice', async () => {
    const server = await startFull();
    const name = 'Wand schließen; ein „Test“, mit \\ und 🚐 '.repeat(4).trim();
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, {
      body: { name, note: 'one\r\ntwo\nthree' },
      version: 1,
    });
    const { text, headers } = await newFeed(server, FULL);
    expect(headers['content-type']).toBe('text/calendar; charset=utf-8');
    const lines = text.split('\r\n');
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    for (const line of lines) expect(Buffer.byteLength(line), line).toBeLessThanOrEqual(75);
    const events = eventsOf(text);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    const own = events.find(({ uid }) => uid.startsWith('work.close-wall.'))!;
    expect(own.description).toContain('one\ntwo\nthree');
    expect(name.startsWith(own.summary.replace(/( \(\d+ of \d+\))$/, '').replace(/…$/, ''))).toBe(true);
    const decision = { key: 'wood', question: name, locksTasks: ['close-wall'] };
    await server.ask('POST', `/api/builds/${FULL}/decisions`, { body: decision });
    const again = eventsOf((await newFeed(server, FULL)).text);
    expect(again.find(({ uid }) => uid.startsWith('decision.wood@'))!.summary).toBe(
      `Decide by today: ${name}`,
    );
  });

  it('should keep the names of its events and count up when something moves', async () => {
    const server = await startFull();
    const { address, text: before } = await newFeed(server, FULL);
    const first = named(before, 'work.close-wall.1@');
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, {
      body: { name: 'Shut the wall', fixedStart: '2027-05-01T09:00' },
      version: 1,
    });
    const after = (await server.ask('GET', address)).text;
    const second = named(after, 'work.close-wall.1@');
    expect(second.uid).toBe(first.uid);
    expect([first.summary, second.summary]).toEqual([
      expect.stringMatching(/^Close the wall/),
      expect.stringMatching(/^Shut the wall/),
    ]);
    expect(second.startDate.toString() > first.startDate.toString()).toBe(true);
    expect(second.sequence).toBeGreaterThan(first.sequence);
    const stamp = (event: ICAL.Event, name: string) =>
      (event.component.getFirstPropertyValue(name) as ICAL.Time).toUnixTime();
    for (const name of ['last-modified', 'dtstamp'])
      expect(stamp(second, name)).toBeGreaterThanOrEqual(stamp(first, name));
    await server.ask('POST', `/api/builds/${FULL}/undo`);
    const undone = named((await server.ask('GET', address)).text, 'work.close-wall.1@');
    expect(undone.sequence).toBeGreaterThan(second.sequence);
    expect(undone.startDate.toString()).toBe(first.startDate.toString());
  });

  it('should hold dates far off', async () => {
    const server = await startFull();
    await server.ask('PATCH', `/api/builds/${FULL}/tasks/close-wall`, {
      body: { fixedStart: '2058-12-31T22:00' },
      version: 1,
    });
    const events = eventsOf((await newFeed(server, FULL)).text);
    expect(events.every(({ startDate }) => startDate.year >= 2027)).toBe(true);
  });

  it('should be sent again only when it is new', async () => {
    const server = await startFull();
    const { address, headers } = await newFeed(server, FULL);
    const same = await server.ask('GET', address, { headers: { 'if-none-match': String(headers['etag']) } });
    expect([same.status, same.text]).toEqual([304, '']);
    await server.ask('PATCH', `/api/builds/${FULL}/tools/saw`, { body: { name: 'x' }, version: 1 });
    const anew = await server.ask('GET', address, { headers: { 'if-none-match': String(headers['etag']) } });
    expect(anew.status).toBe(200);
  });
});

describe('a secret address', () => {
  it('should be shown again, and be dead once it is revoked', async () => {
    const server = await startFull();
    const one = await newFeed(server, FULL, 'phone');
    const two = await newFeed(server, FULL, 'laptop');
    const list = async () =>
      ((await server.ask('GET', `/api/builds/${FULL}/feeds`)).body as unknown as Loose[]).map(
        ({ name }) => name,
      );
    expect(await list()).toEqual(['phone', 'laptop']);
    expect((await server.ask('DELETE', `/api/builds/${FULL}/feeds/${one.secret}`)).status).toBe(204);
    expect([
      await list(),
      (await server.ask('GET', one.address)).status,
      (await server.ask('GET', two.address)).status,
    ]).toEqual([['laptop'], 404, 200]);
    expect((await server.ask('DELETE', `/api/builds/${FULL}/feeds/${one.secret}`)).status).toBe(404);
  });

  it('should outlive a restart, and die with its build', async () => {
    const server = await startFull();
    const { address } = await newFeed(server, FULL);
    await server.close();
    const again = await startServer({ folder: server.folder });
    expect((await again.ask('GET', address)).status).toBe(200);
    await again.ask('DELETE', `/api/builds/${FULL}`, { version: 1 });
    expect((await again.ask('GET', address)).status).toBe(404);
  });

  it('should be in no build file and no history', async () => {
    const server = await startFull();
    const { secret } = await newFeed(server, FULL);
    for (const url of ['file', 'snapshot', 'history', 'plan'])
      expect((await server.ask('GET', `/api/builds/${FULL}/${url}`)).text).not.toContain(secret);
    expect((await server.snapshot()).revision).toBe(1);
  });

  it('should be revoked only by the build it is of', async () => {
    const server = await startServer({ builds: [wagtail()] });
    const { secret, address } = await newFeed(server, 'wagtail');
    await server.ask('POST', '/api/builds', {
      body: { format: 'coverlast-build', version: 1, build: { name: 'Other', startOn: '2027-01-02' } },
    });
    expect((await server.ask('DELETE', `/api/builds/other/feeds/${secret}`)).status).toBe(404);
    expect((await server.ask('GET', address)).status).toBe(200);
  });

  it.each([
    '/feeds/x.ics',
    `/feeds/${'a'.repeat(43)}.ics`,
    '/feeds/',
    '/feeds/..%2F..%2Fapi.ics',
    "/feeds/' or 1=1.ics",
  ])('should not be guessed: %s', async (url) => {
    const server = await startFull();
    await newFeed(server, FULL);
    const { status, text } = await server.ask('GET', url);
    expect([status, text.includes('VCALENDAR')]).toEqual([404, false]);
  });

  it('should need a name, as anything a person reads', async () => {
    const server = await startFull();
    for (const body of [{}, { name: '' }, { name: 5 }, { name: 'a\nb' }, { name: 'x', secret: 'y' }, null])
      expect((await server.ask('POST', `/api/builds/${FULL}/feeds`, { body })).status).toBe(400);
  });
});

// Helpers

async function newFeed(server: TestServer, build: string, name = 'phone') {
  const { status, body } = await server.ask('POST', `/api/builds/${build}/feeds`, { body: { name } });
  expect(status).toBe(201);
  const { address, secret } = body as unknown as { address: string; secret: string };
  const { text, headers } = await server.ask('GET', address);
  return { address, secret, text, headers };
}

function eventsOf(text: string): ICAL.Event[] {
  const calendar = new ICAL.Component(ICAL.parse(text) as unknown[]);
  return calendar.getAllSubcomponents('vevent').map((event) => new ICAL.Event(event));
}

function named(text: string, start: string): ICAL.Event {
  return eventsOf(text).find(({ uid }) => uid.startsWith(start))!;
}
