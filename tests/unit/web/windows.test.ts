import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  added,
  drawn,
  freeWindow,
  minutesIn,
  moved,
  readWindows,
  resized,
  writeWindow,
  type Stretch,
} from '../../../web/src/controls/windows.ts';

const SATURDAY = readWindows(['13:30-17:00', '09:00-12:30']);

describe('windows of a day, changed by hand', () => {
  it('should read windows in their order and write them back', () => {
    expect(SATURDAY.map(writeWindow)).toEqual(['09:00-12:30', '13:30-17:00']);
  });

  it('should count what two windows share once', () => {
    expect(minutesIn(SATURDAY)).toBe(420);
    expect(minutesIn(readWindows(['09:00-12:00', '10:00-13:00', '11:00-11:30']))).toBe(240);
  });

  it('should draw a window by quarter hours, in either direction', () => {
    expect(write(drawn([], 1112, 1256))).toBe('18:30-21:00');
    expect(write(drawn([], 1256, 1112))).toBe('18:30-21:00');
  });

  it('should cut a drawn window off at its neighbours and draw none on top of one', () => {
    expect(write(drawn(SATURDAY, 760, 900))).toBe('12:45-13:30');
    expect(write(drawn(SATURDAY, 770, 400))).toBe('12:30-12:45');
    expect(drawn(SATURDAY, 600, 700)).toBeNull();
    expect(drawn([], 600, 603)).toBeNull();
  });

  it('should move a window as far as its neighbour and the end of the day', () => {
    expect(moved(SATURDAY, 0, 600).map(writeWindow)).toEqual(['10:00-13:30', '13:30-17:00']);
    expect(moved(SATURDAY, 1, 600).map(writeWindow)).toEqual(['09:00-12:30', '20:30-24:00']);
    expect(moved(SATURDAY, 0, -15).map(writeWindow)[0]).toBe('08:45-12:15');
  });

  it('should resize one end and keep a quarter hour', () => {
    expect(resized(SATURDAY, 0, 'to', 900).map(writeWindow)[0]).toBe('09:00-13:30');
    expect(resized(SATURDAY, 0, 'from', 900).map(writeWindow)[0]).toBe('12:15-12:30');
    expect(resized(SATURDAY, 1, 'to', 0).map(writeWindow)[1]).toBe('13:30-13:45');
  });

  it('should offer the evening first, then other free time, then nothing', () => {
    expect(write(freeWindow([]))).toBe('18:30-21:00');
    expect(write(freeWindow(readWindows(['18:00-22:00'])))).toBe('09:00-12:30');
    expect(freeWindow(readWindows(['00:00-24:00']))).toBeNull();
  });

  it('should keep windows sorted, apart and within the day, whatever is done', () => {
    const doing = fc.array(
      fc.tuple(fc.constantFrom('draw', 'move', 'from', 'to'), fc.nat(1440), fc.nat(1440), fc.nat(9)),
      { maxLength: 20 },
    );
    fc.assert(
      fc.property(doing, (steps) => {
        let windows: Stretch[] = [];
        for (const [what, a, b, pick] of steps) {
          const index = windows.length === 0 ? -1 : pick % windows.length;
          if (what === 'draw') {
            const one = drawn(windows, a, b);
            if (one !== null) windows = added(windows, one);
          } else if (index >= 0)
            windows =
              what === 'move'
                ? moved(windows, index, a - b)
                : resized(windows, index, what as 'from' | 'to', a);
          expect(windows.every(({ from, to }) => from >= 0 && from < to && to <= 1440)).toBe(true);
          expect(windows.every(({ from }, i) => i === 0 || windows[i - 1]!.to <= from)).toBe(true);
        }
      }),
    );
  });
});

// Helpers

function write(window: Stretch | null): string | null {
  return window === null ? null : writeWindow(window);
}
