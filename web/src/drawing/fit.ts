/** Lettering in a drawing that has only so much room. Widths are those of the condensed lettering, on the safe side. */

/** Width of a character as a share of the size; capitals, figures and m are wider than i and l. */
const WIDTH = 0.4;

export function widthOf(text: string, size = 11): number {
  return text.length * size * WIDTH;
}

/** The text, or as many of its letters as fit and an ellipsis; '' where not even three do. */
export function fit(text: string, width: number, size = 11): string {
  const letters = Math.floor(width / (size * WIDTH));
  if (text.length <= letters) return text;
  if (letters < 4) return '';
  return `${text.slice(0, letters - 1).replace(/[ ,.;:(“]+$/, '')}…`;
}

/** A comma this far into the room is a good place to stop. */
const STOP = 0.35;

/** A long name up to its first stop that fits: "Filler hose" of "Filler hose, breather and overflow behind the right wall". */
export function shortName(name: string, most = 40): string {
  const [head = ''] = name.split(/[:;(]/, 1);
  const text = head.trim().length >= 4 ? head.trim() : name;
  if (text.length <= most) return text;
  const comma = text.lastIndexOf(',', most);
  if (comma >= most * STOP) return text.slice(0, comma);
  const cut = text.slice(0, most);
  const words = cut.slice(0, Math.max(cut.lastIndexOf(' '), Math.floor(most / 2)));
  return `${words.replace(/( (and|or|of|with|for|the|to|in|on|from|over|under))+$/, '').replace(/[ ,.;:]+$/, '')}…`;
}
