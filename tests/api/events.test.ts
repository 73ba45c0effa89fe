/** Server-sent events over a real port: who listens hears of every change of their build, and of no other. */
import { describe, expect, it, onTestFinished } from 'vitest';
import { fullDocument, type Loose } from '../support/full-document.ts';
import { FULL, startServer, type TestServer } from '../support/server.ts';

describe('the events of a build', () => {
  it('should begin with the revision and tell each change with its rows and who sent it', async () => {
    const { server, hear } = await listening();
    expect(await hear()).toMatchObject({ event: 'hello', data: { revision: 1 } });
    const changed = await server.ask('PATCH', url('phases/first-fix'), {
      body: { budget: 7 },
      version: 1,
      headers: { 'x-client': 'tab-1' },
    });
    expect(changed.status).toBe(200);
    expect(await hear()).toMatchObject({
      id: '2',
      event: 'changed',
      data: {
        revision: 2,
        source: 'tab-1',
        rows: [{ noun: 'phases', id: 'first-fix', version: 2, value: { budget: 7 } }],
      },
    });
  });

  it('should tell undo, redo, removal of a record, change sets and the head alike', async () => {
    const { server, hear } = await listening();
    await hear();
    await server.ask('PATCH', url('head'), { body: { name: 'New' }, version: 1 });
    await server.ask('POST', url('undo'));
    await server.ask('POST', url('redo'));
    await server.change([
      { noun: 'tools', id: 'drill', version: null, value: { key: 'drill', name: 'drill', only: [] } },
    ]);
    await server.ask('DELETE', url('tools/drill'), { version: 1 });
    const heard = [await hear(), await hear(), await hear(), await hear(), await hear()];
    expect(heard.map(({ data }) => data['revision'])).toEqual([2, 3, 4, 5, 6]);
    expect(heard.map(({ data }) => data['source'])).toEqual([null, null, null, null, null]);
    expect(heard[4]!.data['rows']).toEqual([{ noun: 'tools', id: 'drill', version: null, value: null }]);
  });

  it('should say nothing of what was refused, nor of other builds', async () => {
    const { server, hear } = await listening();
    await hear();
    await server.ask('POST', '/api/builds', { body: fullDocument() });
    await server.ask('PATCH', '/api/builds/full-2/phases/first-fix', { body: { budget: 1 }, version: 1 });
    await server.ask('PATCH', url('phases/first-fix'), { body: { budget: -1 }, version: 1 });
    await server.ask('PATCH', url('phases/first-fix'), { body: { budget: 2 }, version: 8 });
    await server.ask('PATCH', url('phases/first-fix'), { body: { budget: 3 }, version: 1 });
    expect(await hear()).toMatchObject({ data: { rows: [{ value: { budget: 3 } }] } });
  });

  it('should reach everybody who listens, and forget who has gone', async () => {
    const { server, address, hear } = await listening();
    const second = await listen(server, address);
    await hear();
    await second.hear();
    await server.ask('PATCH', url('phases/first-fix'), { body: { budget: 3 }, version: 1 });
    expect([(await hear()).id, (await second.hear()).id]).toEqual(['2', '2']);
    expect(server.app.listeners.count(FULL)).toBe(2);
    await second.leave();
    await expect.poll(() => server.app.listeners.count(FULL)).toBe(1);
    await server.ask('PATCH', url('phases/first-fix'), { body: { budget: 4 }, version: 2 });
    expect((await hear()).id).toBe('3');
  });

  it('should end with the build', async () => {
    const { server, hear } = await listening();
    await hear();
    await server.ask('DELETE', `/api/builds/${FULL}`, { version: 1 });
    expect((await hear()).event).toBe('removed');
    await expect(hear()).rejects.toThrow('ended');
    expect((await server.ask('GET', url('events'))).status).toBe(404);
  });

  it('should not be opened by asking for its head alone', async () => {
    const { server, hear } = await listening();
    await hear();
    expect((await server.ask('HEAD', url('events'))).status).toBe(404);
    expect(server.app.listeners.count(FULL)).toBe(1);
  });

  it('should end when the server stops, at once', async () => {
    const { server, hear } = await listening();
    await hear();
    const from = performance.now();
    await server.close();
    await expect(hear()).rejects.toThrow();
    expect(performance.now() - from).toBeLessThan(2000);
  });
});

// Helpers

interface Heard {
  readonly id: string;
  readonly event: string;
  readonly data: Loose;
}

function url(rest: string): string {
  return `/api/builds/${FULL}/${rest}`;
}

async function listening() {
  const server = await startServer({ builds: [fullDocument()] });
  const address = await server.listen();
  return { server, address, ...(await listen(server, address)) };
}

async function listen(_server: TestServer, address: string) {
  const away = new AbortController();
  onTestFinished(() => away.abort());
  const response = await fetch(`${address}${url('events')}`, { signal: away.signal });
  expect(response.headers.get('content-type')).toBe('text/event-stream');
  expect(response.headers.get('content-security-policy')).toContain("default-src 'none'");
  const reader = response.body!.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  const hear = async (): Promise<Heard> => {
    for (;;) {
      const end = text.indexOf('\n\n');
      if (end === -1) {
        const { value, done } = await reader.read();
        if (done) throw new Error('The events have ended');
        text += value;
        continue;
      }
      const lines = text.slice(0, end).split('\n');
      text = text.slice(end + 2);
      const field = (name: string) =>
        lines.find((line) => line.startsWith(`${name}: `))?.slice(name.length + 2) ?? '';
      if (field('event') !== '')
        return { id: field('id'), event: field('event'), data: JSON.parse(field('data')) as Loose };
    }
  };
  return { hear, leave: () => reader.cancel() };
}
