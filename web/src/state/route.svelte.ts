// Which page is shown. The address after # says it, so that a label's code can open a stand.

export type Route =
  | { page: 'season' }
  | { page: 'today' }
  | { page: 'table' }
  | { page: 'store' }
  | { page: 'packets' }
  | { page: 'plan' }
  | { page: 'site' }
  | { page: 'setup' }
  | { page: 'stand'; id: string };

/** Pages without anything captured from the address. */
const kPlainPages = ['today', 'table', 'store', 'packets', 'plan', 'site', 'setup'] as const;

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export function parseRoute(hash: string): Route {
  const [page, id] = hash.replace(/^#\/?/, '').split('/');
  const plain = kPlainPages.find((each) => each === page);
  if (plain) return { page: plain };
  if (page === 'stand' && id) return { page: 'stand', id: decoded(id) };
  return { page: 'season' };
}

/** The code in an address like "#/pair/ABCD-EFGH", as the serving machine's QR code gives it; else nothing. */
export function pairingCode(hash: string): string {
  const [page, code] = hash.replace(/^#\/?/, '').split('/');
  return page === 'pair' && code ? decoded(code) : '';
}

export const standHref = (id: string) => `#/stand/${encodeURIComponent(id)}`;

class Router {
  current = $state<Route>(parseRoute(location.hash));

  constructor() {
    addEventListener('hashchange', () => {
      this.current = parseRoute(location.hash);
    });
  }
}

export const router = new Router();
