// Which page is shown. The address after # says it, so that a label's code can open a stand.

export type Route =
  { page: 'season' } | { page: 'today' } | { page: 'table' } | { page: 'stand'; id: string };

export function parseRoute(hash: string): Route {
  const [page, id] = hash.replace(/^#\/?/, '').split('/');
  if (page === 'today' || page === 'table') return { page };
  if (page === 'stand' && id) return { page: 'stand', id: decodeURIComponent(id) };
  return { page: 'season' };
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
