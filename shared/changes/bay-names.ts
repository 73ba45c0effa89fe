/** The words of one bay turned into those of another: its name, its code, and the one word that tells them apart. */
import type { Zone } from '../contract/shell.ts';

type Named = Pick<Zone, 'key' | 'name'>;

/** In running text: "left wall, middle" and "L2" wherever they stand. */
export function textForBay(text: string, from: Named, to: Named): string {
  return [
    [from.name, to.name],
    [from.key, to.key],
  ].reduce((words, [old, fresh]) => swapped(words, old!, fresh!), text);
}

/**
 * In a name also the one word that differs: "Threaded inserts left" → "Threaded inserts right". Where nothing in it
 * speaks of the bay, the bay is added, so that the two can be told apart.
 *
 * @param most characters a name may have
 */
export function nameForBay(name: string, from: Named, to: Named, most = 200): string {
  const whole = textForBay(name, from, to);
  const pair = oneWordApart(from.name, to.name);
  const made = whole !== name || pair === null ? whole : swapped(name, ...pair);
  return (made === name ? `${name}, ${to.name}` : made).slice(0, most).trimEnd();
}

/** Whole words only, a capital where there was one. A code is a code in capitals alone. */
function swapped(text: string, old: string, fresh: string): string {
  if (old === '' || old === fresh) return text;
  const isCode = old === old.toUpperCase();
  const literal = old.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
  return text.replace(
    new RegExp(`(?<![\\p{L}\\p{N}])${literal}(?![\\p{L}\\p{N}])`, isCode ? 'gu' : 'giu'),
    (found) => (found[0] === found[0]!.toLowerCase() ? fresh : `${fresh[0]!.toUpperCase()}${fresh.slice(1)}`),
  );
}

/** "left wall, middle" and "right wall, middle" differ in left and right. */
function oneWordApart(a: string, b: string): [string, string] | null {
  const words = (text: string) => text.split(/[^\p{L}\p{N}]+/u).filter(Boolean);
  const [from, to] = [words(a), words(b)];
  if (from.length !== to.length) return null;
  const differ = from.flatMap((word, i): [string, string][] => (word === to[i] ? [] : [[word, to[i]!]]));
  return differ.length === 1 ? differ[0]! : null;
}
