/** Finding by any part of the words, however they are accented; what begins with them comes first. */

export interface Findable {
  readonly words: string;
  /** Said beside it, and searched too. */
  readonly more: string;
}

/** Letters that no decomposition takes apart. */
const LETTERS: Readonly<Record<string, string>> = {
  ß: 'ss',
  ø: 'o',
  ł: 'l',
  đ: 'd',
  ð: 'd',
  æ: 'ae',
  œ: 'oe',
  ı: 'i',
  þ: 'th',
};

/** Small letters without their marks, one space between words. */
export function plain(words: string): string {
  return words
    .toLowerCase()
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/[ßøłđðæœıþ]/g, (letter) => LETTERS[letter]!)
    .replace(/\s+/g, ' ')
    .trim();
}

/** Those that have all the words typed, best first; none while nothing is typed. */
export function found<T extends Findable>(all: readonly T[], text: string): T[] {
  const whole = plain(text);
  const parts = whole.split(' ').filter(Boolean);
  if (parts.length === 0) return [];
  const ranked = all.flatMap((one) => {
    const words = plain(one.words);
    if (!parts.every((part) => words.includes(part) || plain(one.more).includes(part))) return [];
    return [{ one, rank: rankOf(words, whole, parts) }];
  });
  return ranked.toSorted((a, b) => a.rank - b.rank).map(({ one }) => one);
}

function rankOf(words: string, whole: string, parts: readonly string[]): number {
  if (words === whole || words.startsWith(`${whole} `)) return 0;
  if (words.startsWith(whole)) return 1;
  if (parts.every((part) => ` ${words}`.includes(` ${part}`))) return 2;
  return parts.every((part) => words.includes(part)) ? 3 : 4;
}
