/** Hours in one typed line. */
import { describe, expect, it } from 'vitest';
import { readEntry } from '#shared/progress/read-entry.ts';

const PEOPLE = [
  { key: 'ines', name: 'Ines' },
  { key: 'tor', name: 'Tor Bakke' },
];
/** A Tuesday. */
const read = (text: string) => readEntry(text, PEOPLE, '2027-03-09');

describe('hours in one line', () => {
  it('should read who, how long, how far, and leave the words of the task', () => {
    expect(read('ines 1.5 label cables half')).toEqual({
      person: 'ines',
      minutes: 90,
      on: null,
      howFar: 0.5,
      words: 'label cables',
    });
  });

  it('should read them wherever they stand', () => {
    expect(read('Battens walls, 6h, sat, Tor')).toEqual({
      person: 'tor',
      minutes: 360,
      on: '2027-03-06',
      howFar: null,
      words: 'battens walls',
    });
  });

  it('should read durations in all their forms', () => {
    const minutes = (text: string) => read(text).minutes;
    expect(
      ['2 h 15 film', '90 min film', '1,5 film', '2:15 film', '45min film', '3 film'].map(minutes),
    ).toEqual([135, 90, 90, 135, 45, 180]);
    expect(read('2 12 v circuits')).toMatchObject({ minutes: 120, words: '12 v circuits' });
    expect(read('30 h film')).toMatchObject({ minutes: null, words: '30 h film' });
  });

  it('should read days up to today', () => {
    const on = (text: string) => read(text).on;
    expect(['today', 'yesterday', 'tue', 'wednesday', '2027-02-28'].map(on)).toEqual([
      '2027-03-09',
      '2027-03-08',
      '2027-03-09',
      '2027-03-03',
      '2027-02-28',
    ]);
  });

  it('should read how far in words and signs', () => {
    const far = (text: string) => read(text).howFar;
    expect(['three quarters', '¾', 'a quarter', 'done', 'well'].map(far)).toEqual([
      0.75,
      0.75,
      0.25,
      'done',
      null,
    ]);
  });

  it('should leave what it cannot read as words, and read nothing into nothing', () => {
    expect(read('xyzzy')).toMatchObject({ person: null, minutes: null, words: 'xyzzy' });
    expect(read('   ')).toEqual({ person: null, minutes: null, on: null, howFar: null, words: '' });
  });
});
