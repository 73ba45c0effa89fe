import { describe, expect, it } from 'vitest';
import { makeBuild, task } from '../../support/builds.ts';
import { coverPairs } from '../../../web/src/views/task/cover-pairs.ts';
import { hiddenBy, likeIn, withDepth, withHides } from '../../../web/src/views/task/place-edit.ts';

const depths = ['metal', 'services', 'fill', 'film'];
const build = makeBuild({
  depths,
  zones: [
    { key: 'L1', name: 'front', depths },
    { key: 'L2', name: 'middle', depths },
    { key: 'L3', name: 'rear', depths: ['metal', 'fill'] },
  ],
  tasks: [
    task('cable', 60, {
      places: [
        { zone: 'L1', depth: 'services' },
        { zone: 'L2', depth: 'services' },
      ],
    }),
    task('fill', 60, {
      places: [
        { zone: 'L1', depth: 'fill', hides: 'services' },
        { zone: 'L2', depth: 'fill', hides: 'services' },
      ],
    }),
    task('film', 60, { places: [{ zone: 'L2', depth: 'film', hides: 'fill' }] }),
  ],
});
const [L1, , L3] = build.zones as [(typeof build.zones)[number], unknown, (typeof build.zones)[number]];

describe('choosing places', () => {
  it('should put what it hides on the place furthest in front', () => {
    const places = withHides(
      withDepth(withDepth([], L1, 'services', true), L1, 'fill', true),
      L1,
      'services',
    );
    expect(places).toEqual([
      { zone: 'L1', depth: 'services', hides: null },
      { zone: 'L1', depth: 'fill', hides: 'services' },
    ]);
    expect(hiddenBy(places, L1)).toBe('services');
  });

  it('should keep what it hides when a place further in front is added or taken out', () => {
    const before = withHides(withDepth([], L1, 'fill', true), L1, 'services');
    const more = withDepth(before, L1, 'film', true);
    expect(more.at(-1)).toEqual({ zone: 'L1', depth: 'film', hides: 'services' });
    expect(withDepth(more, L1, 'film', false)).toEqual(before);
  });

  it('should leave other zones alone, and carry a zone over as far as the other has the depths', () => {
    const places = [
      { zone: 'L1', depth: 'fill', hides: 'services' },
      { zone: 'L1', depth: 'services', hides: null },
    ];
    expect(likeIn(places, 'L1', L3)).toEqual([...places, { zone: 'L3', depth: 'fill', hides: null }]);
  });
});

describe('the order that follows from places', () => {
  it('should name what a task hides and what hides it, zone by zone', () => {
    expect(coverPairs(build, 'fill')).toEqual({
      behind: [
        {
          task: 'cable',
          places: [
            { zone: 'L1', depth: 'services' },
            { zone: 'L2', depth: 'services' },
          ],
        },
      ],
      inFront: [{ task: 'film', places: [{ zone: 'L2', depth: 'fill' }] }],
    });
  });

  it('should leave out a freed pair', () => {
    const freed = { ...build, exceptions: [{ inner: 'cable', cover: 'fill', reason: 'a hatch' }] };
    expect(coverPairs(freed, 'fill').behind).toEqual([]);
    expect(coverPairs(freed, 'cable').inFront.map((pair) => pair.task)).toEqual(['film']);
  });
});
