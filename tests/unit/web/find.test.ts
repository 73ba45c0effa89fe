import { describe, expect, it } from 'vitest';
import { found, plain } from '../../../web/src/frame/find.ts';

const all = [
  { words: 'Rib fill, right wall', more: 'R2 R3' },
  { words: 'R2 Right wall, middle', more: '' },
  { words: 'Größe der Łuk prüfen', more: '' },
  { words: 'Right-hand locker', more: '' },
];
const words = (text: string) => found(all, text).map((one) => one.words.slice(0, 8));

describe('finding', () => {
  it('should put what begins with the letters before what only has them somewhere', () => {
    expect(words('r2')).toEqual(['R2 Right', 'Rib fill']);
    expect(words('right')).toEqual(['Right-ha', 'Rib fill', 'R2 Right']);
  });

  it('should take letters with and without their marks', () => {
    for (const text of ['grosse', 'GRÖSSE', 'größe', 'luk pruf', 'Łuk'])
      expect(words(text)).toEqual(['Größe de']);
    expect(plain('  Smörgås   Æsir ')).toBe('smorgas aesir');
  });

  it('should want every word, in any order, and find nothing for nothing', () => {
    expect(words('wall rib')).toEqual(['Rib fill']);
    expect(words('wall zeppelin')).toEqual([]);
    expect(words('   ')).toEqual([]);
  });
});
