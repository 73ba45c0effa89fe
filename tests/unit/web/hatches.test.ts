import { describe, expect, it } from 'vitest';
import { HATCHES } from '#shared/contract/shell.ts';
import { hatchPath, tileOf } from '../../../web/src/drawing/hatches.ts';

describe('a hatch as one path', () => {
  it('should set the tile as often as the rectangle asks, absolute commands moved and relative ones not', () => {
    const tile = { width: 10, height: 4, body: 'M1 2H3a.5 .5 0 0 1 1 1V4' };
    expect(hatchPath(tile, 20, 4)).toBe('M1 2H3a.5 .5 0 0 1 1 1V4M11 2H13a.5 .5 0 0 1 1 1V4');
    expect(hatchPath(tile, 5, 8)).toBe('M1 2H3a.5 .5 0 0 1 1 1V4M1 6H3a.5 .5 0 0 1 1 1V8');
  });

  it('should write nothing but numbers for every hatch', () => {
    for (const hatch of HATCHES) {
      const tile = tileOf(hatch, 11);
      if (tile !== null) expect(hatchPath(tile, 190, 11)).toMatch(/^[MLHVCahvmlz\d .-]+$/);
    }
  });
});
