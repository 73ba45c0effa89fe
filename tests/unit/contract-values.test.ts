/**
 * What a field of a build file may hold: days and times that exist, numbers in their range, money in whole cents, one
 * word out of a few. Each refusal names the place and says what would be right there (the forms: shared/contract).
 */
import { describe, expect, it } from 'vitest';
import { parseBuild, readBuild } from '#shared/contract/read.ts';
import { computePlan } from '#shared/plan.ts';
import { document, link, makeBuild, NOW, task } from '../support/builds.ts';
import { changed, expectRefusal, faultsIn, valueAt } from '../support/contract-faults.ts';

describe('a day, a time, a window', () => {
  const day = 'a day of the calendar, written 2027-03-13';
  const instant = 'a day and a time, written 2027-03-13T18:30, without a zone';
  const window = 'a window of one day, written 18:30-21:00, the end after the start';

  it.each([
    ['/build/startOn', '2027-02-30', day],
    ['/build/startOn', '2027-13-01', day],
    ['/build/startOn', '2027-00-10', day],
    ['/build/startOn', '2027-2-3', day],
    ['/build/startOn', '13.03.2027', day],
    ['/build/startOn', '2027-03-13T18:30', day],
    ['/build/startOn', '0027-03-13', day],
    ['/build/startOn', '2027-02-29', day],
    ['/people/0/exceptions/0/from', '2026-11-31', day],
    ['/purchases/0/orderedOn', '2027-02-24 ', day],
    ['/build/asOf', '2027-03-09T25:00', instant],
    ['/build/asOf', '2027-03-09T24:00', instant],
    ['/build/asOf', '2027-03-09T19:60', instant],
    ['/build/asOf', '2027-03-09 19:00', instant],
    ['/build/asOf', '2027-03-09T19:00Z', instant],
    ['/build/asOf', '2027-03-09T19:00:00', instant],
    ['/tasks/0/fixedStart', '2027-02-30T09:00', instant],
    ['/records/0/takenAt', '2027-03-09', instant],
    ['/people/0/week/tue/0', '25:00-26:00', window],
    ['/people/0/week/tue/0', '21:00-18:30', window],
    ['/people/0/week/tue/0', '18:30-18:30', window],
    ['/people/0/week/tue/0', '22:00-02:00', window],
    ['/people/0/week/tue/0', '6:30-9:00', window],
    ['/people/0/week/tue/0', '18:30', window],
    ['/people/0/exceptions/0/windows/0', '24:00-24:00', window],
    ['/conditions/0/hours', '18:00-08:00', window],
    ['/conditions/0/notYearly/0', '02-30..03-15', 'days of every year, written 11-15..03-15'],
    ['/conditions/0/notYearly/0', '11-15', 'days of every year, written 11-15..03-15'],
  ])('should be refused at %s when written %s', (at, value, right) => {
    expectRefusal(changed(at, value), at, `it must be ${right}`);
  });

  it.each([
    ['/build/startOn', '2024-02-29'],
    ['/people/0/week/tue/0', '00:00-24:00'],
    ['/conditions/0/notYearly/0', '02-29..02-29'],
    ['/tasks/0/fixedStart', '2027-03-09T00:00'],
  ])('should be accepted at %s when written %s', (at, value) => {
    expect(valueAt(readBuild(changed(at, value)), at)).toBe(value);
  });
});

describe('a number', () => {
  const minutes = 'a whole number of minutes from 0 to 527 040 (a year)';
  const cents = 'a whole number of minor units (cents), 0 or more';
  const grams = 'a whole number of grams from 0 to 100 000 000';
  const money = `
    /build/budget /people/0/rate /phases/0/budget /purchases/0/shipping /purchases/0/discount
    /purchases/0/charges/0/amount /purchases/0/lines/0/unitPrice /purchases/0/lines/0/priceLow
    /purchases/0/lines/0/priceHigh /purchases/0/quotes/0/amount /purchases/0/returns/0/refund
    /purchases/0/payments/0/amount /baselines/0/tasks/hose-test/money`;

  it.each(money.trim().split(/\s+/))(
    'should be whole cents where it is money, never a part or less than nothing: %s',
    (at) => {
      for (const amount of [19.99, -1, 1e18]) expectRefusal(changed(at, amount), at, `it must be ${cents}`);
    },
  );

  it.each([
    ['/tasks/0/minutes/low', -1, minutes],
    ['/tasks/0/minutes/likely', 90.5, minutes],
    ['/tasks/0/minutes/high', 527_041, minutes],
    ['/tasks/0/waitMinutes', -720, minutes],
    ['/tasks/0/shortestSitting', 1e9, minutes],
    ['/links/0/lagMinutes', -60, minutes],
    ['/tasks/1/remainingMinutes', -5, minutes],
    ['/tasks/0/reopenMinutes', -5, 'a whole number of person-minutes, 0 or more'],
    ['/tasks/0/people', 0, 'how many people work at once, a whole number from 1 to 50'],
    ['/tasks/0/people', 1.5, 'how many people work at once, a whole number from 1 to 50'],
    ['/zones/0/capacity', 0, 'how many tasks fit at once, a whole number from 1 to 100'],
    ['/zones/0/bay', 0, 'a bay from the front, a whole number from 1 to 50'],
    ['/build/contingencyPercent', -1, 'a percentage from 0 to 100'],
    ['/build/contingencyPercent', 101, 'a percentage from 0 to 100'],
    ['/build/pace/prior', 0, 'hours taken per hour estimated, 0.1 to 10'],
    ['/build/limits/grossMass', -1, grams],
    ['/build/limits/wheelbase', 0, 'a whole number of millimetres from 1 to 30 000'],
    ['/build/limits/loads/0/mass', 0.5, 'a whole number of grams, negative for something taken out'],
    ['/build/limits/loads/0/x', 40_000, 'a whole number of millimetres from -30 000 to 30 000'],
    ['/hours/0/minutes', 0, 'a whole number of minutes from 1 to 1440 (a day)'],
    ['/hours/0/minutes', 1441, 'a whole number of minutes from 1 to 1440 (a day)'],
    ['/purchases/0/leadDays', -3, 'a whole number of days from 0 to 3650'],
    ['/purchases/0/leadDays', 4000, 'a whole number of days from 0 to 3650'],
    ['/purchases/0/rate', 0, 'the exchange rate at which it was booked, above 0'],
    ['/purchases/0/lines/0/quantity', 0, 'a quantity above 0, at most 1 000 000'],
    ['/purchases/0/lines/0/quantity', -2, 'a quantity above 0, at most 1 000 000'],
    ['/purchases/0/lines/0/mass', -80, grams],
    ['/purchases/0/lines/0/fittedShare', 1.2, 'the share that stays in the vehicle, 0 to 1'],
    ['/purchases/0/lines/0/taxPercent', 121, 'a percentage from 0 to 100'],
    ['/purchases/0/lines/0/size/2', 0, 'a whole number of millimetres from 1 to 30 000'],
    ['/weighings/0/rear', -1, grams],
    ['/decisions/0/putOff', -1, 'how often it was put off, 0 to 1000'],
  ])('should be refused at %s when it is %s', (at, value, right) => {
    expectRefusal(changed(at, value), at, `it must be ${right}`);
  });

  it('should be refused when it is larger than any number', () => {
    const text = JSON.stringify(changed('/tasks/0/waitMinutes', 4242)).replace('4242', '1e999');
    const [fault, ...more] = faultsIn(() => parseBuild(text));
    expect(more).toEqual([]);
    expect(fault!.pointer).toBe('/tasks/0/waitMinutes');
    expect(fault!.detail).toContain(`it must be ${minutes}`);
  });

  it('should be refused when a size has more or fewer than three lengths', () => {
    const at = '/purchases/0/lines/0/size';
    expectRefusal(changed(at, [40, 40]), at, 'it must be three lengths in millimetres: [x, y, z]');
    expectRefusal(changed(at, [40, 40, 20, 5]), at, 'it must be three lengths in millimetres: [x, y, z]');
  });
});

describe('a word out of a few', () => {
  it.each([
    ['/version', 2, '1'],
    ['/version', '1', '1'],
    ['/format', 'another-build', '"coverlast-build"'],
    ['/build/units', 'stones', 'one of: metric, imperial'],
    ['/build/currency', 'euro', 'a currency code of ISO 4217, such as EUR'],
    ['/zones/0/face', 'top', 'one of: left, floor, right, ceiling'],
    ['/depths/0/hatch', 'stripes', 'one of: metal, opening'],
    ['/tasks/0/state', 'done', 'one of: not-started, started, finished'],
    ['/tasks/0/cautions/0', 'fire', 'one of: electricity, mains'],
    ['/tasks/0/holdPoints/0/kind', 'smell', 'one of: leak, continuity'],
    ['/tasks/0/holdPoints/0/when', 'middle', 'one of: entry, exit'],
    ['/links/0/kind', 'fs', 'one of: FS, SS, FF, SF'],
    ['/links/0/lagOn', 'moon', 'one of: clock, working'],
    ['/links/0/why', 'habit', 'one of: hidden-by, needs-surface'],
    ['/purchases/0/state', 'lost', 'one of: wanted, quoted, ordered, part-received, received, returned'],
    ['/purchases/0/lines/0/category', 'gift', 'one of: material, tool, consumable, fee, hire'],
    ['/purchases/0/payments/0/kind', 'half', 'one of: full, deposit, balance, other'],
    ['/records/0/file', 'sha256:12', 'a stored file, written sha256: and 64 hex digits'],
  ])('should be refused at %s when it is %s', (at, value, right) => {
    expectRefusal(changed(at, value), at, `it must be ${right}`);
  });
});

describe('money put in', () => {
  const cents = 'a whole number of minor units (cents), 0 or more';

  it.each([
    ['/build/moneyIn/1/amount', 19.99, `it must be ${cents}`],
    ['/build/moneyIn/0/monthly', -1, `it must be ${cents}`],
    ['/build/moneyIn/0/from', '2026-13', 'it must be a month, written 2026-06'],
    ['/build/moneyIn/0/colour', 'red', 'is not a field here; the fields are: from, monthly'],
  ])('should have only the field that is wrong pointed out: %s', (at, value, detail) => {
    expectRefusal(changed(at, value), at, detail);
  });

  it('should be told both its forms when it has neither', () => {
    const right = 'money put in: { from: "2026-06", monthly } or { on: "2026-06-06", amount }';
    expectRefusal(changed('/build/moneyIn/0', 7), '/build/moneyIn/0', `it must be ${right}`);
  });
});

describe('a name', () => {
  it.each([
    'Bachstelze',
    'Žluťásek',
    'Трясогузка',
    'Σουσουράδα',
    'נחליאלי',
    'ذعرة بيضاء',
    'सफ़ेद खंजन',
    'นกอุ้มบาตร',
    '白鶺鴒',
    'ハクセキレイ',
    '알락할미새',
    'van 🚐, the second',
    'e\u0301tage (a letter in two parts)',
    '"; DROP TABLE builds; --',
    '<b>bold</b>',
    'x'.repeat(200),
  ])('should be kept as it is in any script: %s', (name) => {
    const { build, tasks } = readBuild(document({ build: { name }, tasks: [task('a', 60, { name })] }));
    expect(build.name).toBe(name);
    expect(tasks[0]!.name).toBe(name);
  });

  it.each([
    ['nothing', ''],
    ['only spaces', '   '],
    ['two lines', 'Close\nthe wall'],
    ['longer than 200 characters', 'x'.repeat(201)],
  ])('should be refused when it is %s', (_, name) => {
    expectRefusal(
      changed('/tasks/0/name', name),
      '/tasks/0/name',
      'it must be one line of text, 1 to 200 characters, not blank',
    );
  });

  // The control characters of ASCII (ECMA-48): none of them is text.
  it('should be refused with any control character in it', () => {
    const controls = [...Array(32).keys(), 127].map((code) => String.fromCharCode(code));
    const accepted = controls.filter((control) => accepts(changed('/tasks/0/name', `Close${control}wall`)));
    expect(accepted.map((control) => control.charCodeAt(0))).toEqual([]);
  });
});

describe('a key', () => {
  it.each(['', ' ', 'a b', 'ключ', '-a', '.a', 'a/b', 'a|b', '__proto__', 'x'.repeat(81)])(
    'should be refused when it is written "%s"',
    (key) => {
      expectRefusal(
        changed('/depths/2/key', key),
        '/depths/2/key',
        'it must be a key: letters, digits, dots',
      );
    },
  );

  it('should name the key, not its value, when a frozen task stands under something that is no key', () => {
    const frozen = { start: '2026-09-12T09:00', finish: '2026-09-12T12:00', minutes: 180, money: 0 };
    const at = '/baselines/0/tasks/hose test';
    expectRefusal(changed(at, frozen), at, 'a key: letters, digits, dots');
  });

  const awkward = ['constructor', 'toString', 'hasOwnProperty', 'prototype', '1'];

  it('should be planned like any other when it is a word that programs use themselves', () => {
    const file = makeBuild({
      depths: awkward,
      zones: awkward.map((key) => ({ key, name: key, depths: awkward })),
      phases: awkward.map((key) => ({ key, name: key })),
      tasks: awkward.map((key) =>
        task(key, 60, { phase: key, places: [{ zone: key, depth: key, hides: null }] }),
      ),
      links: awkward.slice(1).map((key, i) => link(awkward[i]!, key)),
      purchases: awkward.map((key) => ({ key, state: 'received', lines: [{ key, name: key, quantity: 1 }] })),
    });
    const { tasks, errors, purchases, progress } = computePlan(file, { now: NOW });
    expect(errors).toEqual([]);
    awkward.forEach((key, i) => {
      expect(tasks[key]!.early, key).toEqual({ start: i * 60, finish: (i + 1) * 60 });
      expect(tasks[key]!.dates!.start, key).toBe(`2026-06-01T0${i}:00`);
      expect(progress.phases[key]!.estimated, key).toBe(60);
    });
    expect(Object.keys(purchases).toSorted()).toEqual(awkward.toSorted());
  });

  it('should keep its frozen dates in a baseline when it is such a word', () => {
    const frozen = { start: '2026-09-12T09:00', finish: '2026-09-12T12:00', minutes: 180, money: 0 };
    const tasks = Object.fromEntries(awkward.map((key) => [key, frozen]));
    expect(readBuild(changed('/baselines/0/tasks', tasks)).baselines[0]!.tasks).toEqual(tasks);
  });
});

// Helpers

function accepts(document: unknown): boolean {
  try {
    readBuild(document);
    return true;
  } catch {
    return false;
  }
}
