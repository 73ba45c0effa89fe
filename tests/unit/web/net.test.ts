import { describe, expect, it } from 'vitest';
import type { Face, Zone } from '#shared/contract/shell.ts';
import { wagtail } from '#shared/demo/wagtail.ts';
import { readBuild } from '#shared/contract/read.ts';
import { miniNet, netOf } from '../../../web/src/drawing/net.ts';

describe('the van unfolded', () => {
  it('should give every zone of the demo a spot of its own', () => {
    const { zones } = readBuild(wagtail());
    const { spots } = miniNet(zones);
    expect(spots.map(({ key }) => key).sort()).toEqual(zones.map(({ key }) => key).sort());
    for (const a of spots)
      for (const b of spots)
        if (a.key < b.key)
          expect(
            Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x) > 1e-9 &&
              Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y) > 1e-9,
            `${a.key} over ${b.key}`,
          ).toBe(false);
  });

  it('should lay bays from the front down and let a zone without bays take the whole face', () => {
    const { bays, cells } = netOf([zone('F1', 'floor', 1), zone('F2', 'floor', 2), zone('L', 'left', null)]);
    expect(bays).toBe(2);
    expect(cells.map(({ column, bay, whole }) => [column, bay, whole])).toEqual([
      [1, 0, false],
      [1, 1, false],
      [0, null, true],
    ]);
  });

  it('should stand zones of one face side by side where they share it', () => {
    const { spots } = miniNet([zone('D1', 'rear', null), zone('D2', 'rear', null)]);
    expect(spots.map(({ x, w }) => [x, w])).toEqual([
      [8.5, 4],
      [12.5, 4],
    ]);
  });
});

function zone(key: string, face: Face, bay: number | null): Zone {
  return { key, name: key, face, bay, capacity: 1, depths: ['metal'] };
}
