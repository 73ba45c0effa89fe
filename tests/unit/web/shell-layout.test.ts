import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FACES, type Face, type Zone } from '#shared/contract/shell.ts';
import { readBuild } from '#shared/contract/read.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { fit, shortName } from '../../../web/src/drawing/fit.ts';
import { neighbourOf } from '../../../web/src/drawing/neighbour.ts';
import { gridOf } from '../../../web/src/drawing/net-grid.ts';
import { mergedDepths } from '../../../web/src/drawing/shell-columns.ts';
import { shellLayout } from '../../../web/src/drawing/shell-layout.ts';

const SIZE = { width: 950, height: 776, title: 38, callouts: false };
const DEPTHS = ['metal', 'wires', 'fill', 'lining'].map((key) => ({
  key,
  name: key,
  hatch: 'plain' as const,
}));

describe('the shell at size', () => {
  it('should fit the demo on one screen with the same depth on the same row across a bay', () => {
    const { zones, depths } = readBuild(wagtail());
    const layout = shellLayout(zones, depths, { ...SIZE, callouts: true });
    expect(layout.height).toBeLessThanOrEqual(782);
    const row = (zone: string, depth: string) =>
      layout.cells.find((cell) => cell.zone.key === zone)!.rows.find((one) => one.depth === depth)!.y;
    expect(row('L2', 'insulation')).toBe(row('C2', 'insulation'));
    expect(row('L2', 'insulation')).toBe(row('F2', 'insulation'));
    expect(layout.front?.zone.key).toBe('B');
    expect(layout.rear?.zone.key).toBe('D');
    expect(layout.folds.length).toBe(1);
  });

  it('should draw any van: every zone once, with its own depths inside its cell, and no cell over another', () => {
    const zones = fc.uniqueArray(
      fc.record({
        face: fc.constantFrom(...FACES),
        bay: fc.option(fc.integer({ min: 1, max: 50 })),
        depths: fc.shuffledSubarray(DEPTHS.map(({ key }) => key)),
      }),
      { maxLength: 30, selector: ({ face, bay, depths }) => `${face} ${bay} ${depths.join()}` },
    );
    fc.assert(
      fc.property(zones, (records) => {
        const list = records.map(({ face, bay, depths }, i) => zone(`Z${i}`, face, bay, depths));
        const { cells, height, width } = shellLayout(list, DEPTHS, SIZE);
        expect(cells.map(({ zone: { key } }) => key).sort()).toEqual(list.map(({ key }) => key).sort());
        for (const {
          x,
          y,
          w,
          h,
          rows,
          pitch,
          zone: { depths },
        } of cells) {
          expect(rows.map(({ depth }) => depth)).toEqual(depths);
          for (const row of rows) {
            expect(row.y).toBeGreaterThanOrEqual(y + 14);
            expect(row.y + pitch).toBeLessThanOrEqual(y + h + 1e-6);
          }
          expect(x + w).toBeLessThanOrEqual(width + 1e-6);
          expect(y + h).toBeLessThanOrEqual(height + 1e-6);
        }
        for (const a of cells)
          for (const b of cells)
            if (a.zone.key < b.zone.key)
              expect(
                Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x) > 1e-6 &&
                  Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y) > 1e-6,
                `${a.zone.key} over ${b.zone.key}`,
              ).toBe(false);
      }),
    );
  });

  it('should keep the order in which every zone lists its depths, where they agree', () => {
    const order = mergedDepths(
      [zone('A', 'left', 1, ['metal', 'fill', 'lining']), zone('B', 'floor', 1, ['metal', 'wires', 'fill'])],
      DEPTHS,
    );
    expect(order).toEqual(['metal', 'wires', 'fill', 'lining']);
    expect(
      mergedDepths(
        [zone('A', 'left', 1, ['fill', 'metal']), zone('B', 'floor', 1, ['metal', 'fill'])],
        DEPTHS,
      ),
    ).toEqual(['metal', 'fill']);
  });
});

describe('the grid for choosing', () => {
  it('should give zones that share a spot one cell, and a whole face all its rows', () => {
    const grid = gridOf([
      zone('L1', 'left', 1),
      zone('L3', 'left', 3),
      zone('F', 'floor', null),
      zone('X', 'elsewhere', null),
      zone('Y', 'elsewhere', null),
    ]);
    expect(grid.map(({ zones, row, rows }) => [zones.map(({ key }) => key).join(), row, rows])).toEqual([
      ['L1', 2, 1],
      ['F', 2, 3],
      ['L3', 4, 1],
      ['X,Y', 5, 1],
    ]);
  });
});

describe('arrow keys on a drawing', () => {
  const boxes = [
    { key: 'a', x: 0, y: 0, w: 10, h: 10 },
    { key: 'b', x: 10, y: 0, w: 10, h: 10 },
    { key: 'c', x: 0, y: 10, w: 10, h: 10 },
    { key: 'd', x: 10, y: 10, w: 10, h: 10 },
  ];

  it('should go straight on, and stop at the edge', () => {
    expect(neighbourOf(boxes, 'a', 'right')).toBe('b');
    expect(neighbourOf(boxes, 'a', 'down')).toBe('c');
    expect(neighbourOf(boxes, 'd', 'up')).toBe('b');
    expect(neighbourOf(boxes, 'a', 'left')).toBeNull();
    expect(neighbourOf(boxes, 'gone', 'left')).toBeNull();
  });
});

describe('lettering with little room', () => {
  it('should cut a name at a good place', () => {
    expect(shortName('Filler hose, breather and overflow behind the right wall', 24)).toBe('Filler hose');
    expect(shortName('Left window: cut, deburr')).toBe('Left window');
    expect(shortName('Kitchen block with fridge bay and its ventilation', 31)).toBe(
      'Kitchen block with fridge bay…',
    );
    expect(fit('Left wall, middle', 400)).toBe('Left wall, middle');
    expect(fit('Left wall, middle', 40)).toBe('Left wal…');
    expect(fit('Left wall, middle', 8)).toBe('');
  });
});

function zone(key: string, face: Face, bay: number | null, depths: readonly string[] = ['metal']): Zone {
  return { key, name: key, face, bay, capacity: 1, depths: [...depths] };
}
