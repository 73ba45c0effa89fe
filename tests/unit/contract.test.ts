/**
 * What a build file may hold, field by field (the fields and their forms: shared/contract). Every refusal has to name
 * the one place that is wrong, as a JSON pointer (RFC 6901), and say what would be right there.
 */
import { describe, expect, it } from 'vitest';
import { parseBuild, readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { task } from '../support/builds.ts';
import {
  changed,
  expectRefusal,
  faultsIn,
  LEFT_OUT,
  pointersIn,
  refusalOf,
  valueAt,
} from '../support/contract-faults.ts';
import { FILLED_IN, LEAST } from './contract-defaults.ts';
import { fullDocument, type Loose } from '../support/full-document.ts';

describe('a build file', () => {
  it('should be accepted with nothing but its format, version, name and first day', () => {
    const { people, tasks, build } = readBuild(MINIMAL);
    expect(build).toEqual(FILLED_IN.build);
    expect([people, tasks]).toEqual([[], []]);
    expect(Object.keys(readBuild(MINIMAL)).toSorted()).toEqual(Object.keys(FILLED_IN).toSorted());
  });

  it('should have everything filled in that is left out', () => {
    expect(readBuild(LEAST)).toEqual(FILLED_IN);
  });

  it('should keep every field that is given as it stands', () => {
    expect(readBuild(fullDocument())).toMatchObject(fullDocument());
  });

  it('should not be changed by being read', () => {
    const document = deepFreeze(fullDocument());
    const file = readBuild(document);
    file.tasks[0]!.minutes.low = 1;
    file.people[0]!.week.tue.push('06:00-07:00');
    expect(document).toEqual(fullDocument());
  });

  it.each([
    ['a minimal one', () => readBuild(MINIMAL)],
    ['a full one', () => readBuild(fullDocument())],
    ['the demo', wagtail],
  ])('should come out the same when what was read is read again: %s', (_, build) => {
    const once = build();
    expect(parseBuild(JSON.stringify(once))).toEqual(once);
  });

  it('should lend no list or object to two records at once', () => {
    const { tasks } = readBuild({ ...MINIMAL, tasks: [task('a', 60), task('b', 60)] });
    tasks[0]!.steps.push({ text: 'prime the edge', done: false });
    expect(tasks[1]!.steps).toEqual([]);
    expect(readBuild({ ...MINIMAL, tasks: [task('c', 60)] }).tasks[0]!.steps).toEqual([]);
  });
});

describe('a text that is not a build', () => {
  const whole = JSON.stringify(MINIMAL, null, 2);

  it('should be told to be empty when nothing is in it', () => {
    expect(refusalOf(() => parseBuild(' \n')).message).toBe('The file is empty.');
  });

  it('should be told to have been cut off, with the line where it ends, wherever it is cut', () => {
    for (let length = 1; length < whole.length; length++) {
      const text = whole.slice(0, length);
      const { message, failure } = refusalOf(() => parseBuild(text));
      expect(message, text).toMatch(/ends in the middle.*cut off/);
      expect(failure, text).toMatchObject({ code: 'not-json', line: text.split('\n').length });
    }
  });

  it.each([
    ['a comma too many', whole.replace('"version": 1,', '"version": 1,,'), 3, 16],
    ['something after the end', `${whole}\n}`, 9, 1],
    ['a line break within a name', whole.replace('Wagtail', 'Wag\ntail'), 5, 13],
    ['a word without quotes', whole.replace('"Wagtail"', 'Wagtail'), 5, 13],
    ['a word that is no JSON at all', 'build', 1, 1],
    ['a position spoken of in the text', '["position 2", oops]', 1, 16],
  ])('should have the line and column of %s pointed out', (_, text, line, column) => {
    const { message, failure } = refusalOf(() => parseBuild(text));
    expect(failure).toEqual({ code: 'not-json', line, column });
    expect(message).toContain(`line ${line}, column ${column}`);
    expect(message).not.toContain('cut off');
  });

  it.each([
    ['a list', '[]'],
    ['a number', '7'],
    ['a text', '"build"'],
    ['nothing', 'null'],
  ])('should be told what a build is when it is %s', (_, text) => {
    const [fault, ...more] = faultsIn(() => parseBuild(text));
    expect(more).toEqual([]);
    expect(fault!.pointer).toBe('');
    expect(fault!.detail).toContain('it must be an object with format, version, build');
  });

  it('should have all its faults listed, and counted in one sentence', () => {
    const read = () => readBuild({ ...MINIMAL, version: 2, build: { name: '', startOn: 'soon' } });
    expect(refusalOf(read).message).toMatch(/^This is not a build: \/.* and 2 more\.$/);
    expect(pointersIn(read)).toEqual(['/build/name', '/build/startOn', '/version']);
  });

  it('should have what is missing listed beside what is wrong further down', () => {
    const read = () => readBuild({ version: 1, build: { name: '' }, tasks: [task('a', -60, { name: '' })] });
    expect(pointersIn(read)).toEqual([
      '/build/name',
      '/build/startOn',
      '/format',
      '/tasks/0/minutes/high',
      '/tasks/0/minutes/likely',
      '/tasks/0/minutes/low',
      '/tasks/0/name',
    ]);
  });
});

describe('a field nobody knows', () => {
  const objects = placesIn(fullDocument()).filter(
    ({ at, value }) => isObject(value) && !at.startsWith('/build/moneyIn') && !at.endsWith('/tasks'),
  );

  it('should be refused in every object of the file, with the fields there are', () => {
    expect(objects.length).toBeGreaterThan(35);
    for (const { at, value } of objects) {
      const pointer = `${at}/colour`;
      expectRefusal(changed(pointer, 'red'), pointer, 'is not a field here; the fields are: ');
      const [fault] = faultsIn(() => readBuild(changed(pointer, 'red')));
      for (const field of Object.keys(value as Loose)) expect(fault!.detail, pointer).toContain(field);
    }
  });

  it('should be pointed at as RFC 6901 has it when its name holds a slash or a tilde', () => {
    expectRefusal({ ...MINIMAL, 'a/b~c': 1 }, '/a~1b~0c', 'is not a field here');
  });

  it.each(['constructor', 'toString', '__proto__'])('should be refused under the name %s too', (name) => {
    const text = JSON.stringify(MINIMAL).replace('{', `{"${name}":{"people":[]},`);
    expect(faultsIn(() => parseBuild(text))).toEqual([
      { pointer: `/${name}`, detail: expect.stringContaining('is not a field here; the fields are: format') },
    ]);
  });
});

describe('a field left out', () => {
  const name = 'one line of text';
  const day = 'a day of the calendar, written 2027-03-13';
  const key = 'a key: letters, digits';

  it.each([
    ['/format', '"coverlast-build"'],
    ['/version', '1'],
    ['/build', 'an object with name'],
    ['/build/name', name],
    ['/people/0/name', name],
    ['/tasks/0/name', name],
    ['/tasks/0/holdPoints/0/name', name],
    ['/build/startOn', day],
    ['/people/0/exceptions/0/from', day],
    ['/hours/0/on', day],
    ['/weighings/0/on', day],
    ['/people/0/key', key],
    ['/zones/0/key', key],
    ['/tasks/0/key', key],
    ['/purchases/0/lines/0/key', key],
    ['/links/0/from', key],
    ['/tasks/0/minutes', 'an object with low, likely and high in minutes'],
    ['/tasks/0/minutes/high', 'a whole number of minutes'],
    ['/tasks/0/holdPoints/0/attempts/0/pass', 'true or false'],
    ['/records/0/takenAt', 'a day and a time, written 2027-03-13T18:30'],
    ['/exceptions/0/reason', 'the reason why it can still be reached'],
    ['/purchases/0/lines/0/quantity', 'a quantity above 0'],
    ['/purchases/0/quotes/0/amount', 'a whole number of minor units (cents)'],
    ['/weighings/0/front', 'a whole number of grams'],
    ['/baselines/0/tasks', 'an object of frozen tasks by key'],
    ['/baselines/0/tasks/hose-test/finish', 'a day and a time'],
  ])('should be missed where nothing can stand in for it: %s', (at, right) => {
    expectRefusal(changed(at, LEFT_OUT), at, `is missing: it must be ${right}`);
  });
});

describe('null', () => {
  /** What may be unknown; everything else has a value. */
  const mayBeNull = words(`
    /people/0/sharedAs /tasks/0/option /weighings/0/aboard /dismissals/0/on
    /build/targetFinishOn /build/asOf /build/budget /build/limits /zones/0/bay
    /build/limits/grossMass /build/limits/frontAxle /build/limits/rearAxle /build/limits/wheelbase
    /build/limits/track /build/limits/kerbMass /build/limits/kerbFront
    /tasks/0/phase /tasks/0/reopenMinutes /tasks/0/fixedStart /tasks/0/fixedWhy /tasks/1/remainingMinutes
    /tasks/2/places/0/hides /tasks/0/holdPoints/0/expect /tasks/0/holdPoints/0/attempts/0/reading
    /tasks/0/holdPoints/0/attempts/0/photo /links/0/why /decisions/0/chosen /decisions/0/by
    /hours/0/task /hours/0/phase /timers/0/task /timers/0/phase /records/0/task /records/0/file /purchases/0/leadDaysBad
    /purchases/0/orderedOn /purchases/0/promisedOn /purchases/0/currency /purchases/0/payments/0/by
    /purchases/0/lines/0/phase /purchases/0/lines/0/unitPrice /purchases/0/lines/0/priceLow
    /purchases/0/lines/0/priceHigh /purchases/0/lines/0/shelfLifeDays /purchases/0/lines/0/returnDays
    /purchases/0/lines/0/mass /purchases/0/lines/0/x /purchases/0/lines/0/y /purchases/0/lines/0/z
    /purchases/0/lines/0/size /purchases/0/lines/0/serial /purchases/0/returns/0/refundedOn`);
  // A task under way or done says when it began and ended: the schema allows null, the state does not.
  const byState = words('/tasks/0/startedAt /tasks/0/finishedAt /tasks/1/startedAt');

  it('should be taken for "not known" where a value may be unknown', () => {
    for (const at of mayBeNull) expect(valueAt(readBuild(changed(at, null)), at), at).toBeNull();
  });

  const elsewhere = placesIn(fullDocument()).filter(
    ({ at, value }) =>
      value !== null && at !== '' && !mayBeNull.has(at) && !byState.has(at) && !inMoneyIn(at),
  );

  it('should be refused everywhere else', () => {
    expect(elsewhere.length).toBeGreaterThan(150);
    for (const { at } of elsewhere) expectRefusal(changed(at, null), at, 'it must be ');
  });
});

describe('a value of another kind', () => {
  const places = placesIn(fullDocument()).filter(
    ({ at, value }) => value !== null && at !== '' && !inMoneyIn(at),
  );

  it('should be refused everywhere: a number for a text, a text for a number, an object for a list', () => {
    expect(places.length).toBeGreaterThan(200);
    for (const { at, value } of places) {
      const wrong =
        typeof value === 'string' ? 7 : typeof value === 'number' ? '7' : Array.isArray(value) ? {} : 'yes';
      expectRefusal(changed(at, wrong), at, 'it must be ');
    }
  });
});

// Helpers

const MINIMAL = { format: LEAST.format, version: LEAST.version, build: LEAST.build };

/** Every place of a document with its JSON pointer, itself first. */
function placesIn(value: unknown, at = ''): { at: string; value: unknown }[] {
  const inside = typeof value === 'object' && value !== null ? Object.entries(value) : [];
  return [{ at, value }, ...inside.flatMap(([name, item]) => placesIn(item, `${at}/${name}`))];
}

function words(text: string): Set<string> {
  return new Set(text.trim().split(/\s+/));
}

function isObject(value: unknown): boolean {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Money put in has two forms, and tests of its own. */
function inMoneyIn(at: string): boolean {
  return at.startsWith('/build/moneyIn/');
}

function deepFreeze<T>(value: T): T {
  if (typeof value === 'object' && value !== null) Object.values(value).forEach(deepFreeze);
  return Object.freeze(value);
}
