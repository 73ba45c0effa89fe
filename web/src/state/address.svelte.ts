/**
 * Where the reader is: every view has an address, `/builds/wagtail/shell/L2?show=all`, and the back button works. Links
 * are plain `<a href>`; a click on one of ours is taken over here.
 */
export interface Address {
  readonly build: string | null;
  readonly view: string;
  /** What the view shows: a zone, a task; decoded. */
  readonly rest: readonly string[];
  readonly query: URLSearchParams;
}

export const FIRST_VIEW = 'today';

function read(): Address {
  const [top, build, view, ...rest] = location.pathname.split('/').filter(Boolean).map(decoded);
  const query = new URLSearchParams(location.search);
  if (top !== 'builds' || build === undefined) return { build: null, view: 'builds', rest: [], query };
  return { build, view: view ?? FIRST_VIEW, rest, query };
}

/** A mangled address is taken as it stands. */
function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

class Here {
  now = $state.raw<Address>(read());

  constructor() {
    addEventListener('popstate', () => (this.now = read()));
    addEventListener('click', (event) => this.#follow(event));
  }

  /** The address of a view of the build at hand. */
  to(view: string, ...rest: string[]): string {
    return ['', 'builds', this.now.build ?? '', view, ...rest]
      .map((part, i) => (i < 2 ? part : encodeURIComponent(part)))
      .join('/');
  }

  go(href: string, { replace = false, keepScroll = false } = {}): void {
    // To where the reader is already: once more in the history would only make Back seem dead.
    if (replace || href === location.pathname + location.search) history.replaceState(null, '', href);
    else history.pushState(null, '', href);
    this.now = read();
    if (!keepScroll && !replace) scrollTo(0, 0);
  }

  /** Sets words of the query in place: what is filtered or unfolded is part of the address, not of the history. */
  set(words: Readonly<Record<string, string | null>>): void {
    const query = new URLSearchParams(location.search);
    for (const [name, value] of Object.entries(words)) {
      if (value === null || value === '') query.delete(name);
      else query.set(name, value);
    }
    const text = query.toString();
    this.go(location.pathname + (text === '' ? '' : `?${text}`), { replace: true });
  }

  #follow(event: MouseEvent): void {
    if (
      event.defaultPrevented ||
      event.button !== 0 ||
      event.metaKey ||
      event.ctrlKey ||
      event.shiftKey ||
      event.altKey
    )
      return;
    const found = (event.target as Element | null)?.closest?.('a');
    if (!found) return;
    // A link in a drawing is an element of another kind, and what it says of itself is wrapped.
    const target = found instanceof SVGAElement ? found.target.baseVal : found.target;
    const href = found.getAttribute('href') ?? found.getAttribute('xlink:href');
    if (href === null || href.startsWith('#') || target !== '' || found.hasAttribute('download')) return;
    const link = new URL(href, location.href);
    if (link.origin !== location.origin) return;
    const ours = link.pathname === '/' || link.pathname.startsWith('/builds/');
    if (!ours) return;
    event.preventDefault();
    this.go(link.pathname + link.search + link.hash);
  }
}

export const here = new Here();
