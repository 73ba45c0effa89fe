/**
 * Keeps a row as wide as it has room for: what `data-yields` goes out of it, the lowest number first, until the rest fits.
 * Measured, because what stands in it changes: a timer, a lost connection, a day. What goes stands under More as well.
 */
export function fitRow(row: HTMLElement): () => void {
  const fit = () => {
    const yielding = [...row.querySelectorAll<HTMLElement>('[data-yields]')].toSorted(
      (a, b) => Number(a.dataset['yields']) - Number(b.dataset['yields']),
    );
    for (const one of yielding) one.hidden = false;
    const end = row.getBoundingClientRect().right - parseFloat(getComputedStyle(row).paddingRight);
    const fits = () => [...row.children].every((part) => part.getBoundingClientRect().right <= end + 0.5);
    for (const one of yielding) {
      if (fits()) return;
      one.hidden = true;
    }
  };
  const sizes = new ResizeObserver(fit);
  const words = new MutationObserver(fit);
  sizes.observe(row);
  words.observe(row, { subtree: true, childList: true, characterData: true });
  return () => {
    sizes.disconnect();
    words.disconnect();
  };
}
