// The service worker: keeps the page itself and the last answers, so that both can be had off the network.
//
// The page's files come from the store at once; their names change with their content. Answers (GET /api/…) come from
// the server as long as it can be reached, else the last one kept, marked with a header so that the page says so.
// Writes are never touched here: the page keeps them in its outbox and sends them itself, each with its own id.

const kShell = 'sowtide-shell-__VERSION__';
const kAnswers = 'sowtide-answers-1';
const kFiles = __FILES__;
/** Marks an answer that was kept earlier. */
const kKeptHeader = 'X-Sowtide-Kept';
/** A server that stays silent for longer counts as out of reach, if an answer was kept. */
const kPatienceMs = 4000;
/** Stands and figures looked at add up over a season: only so many are kept, the newest. */
const kMostAnswers = 200;
/** Not kept: the stream, what is for programs, and sheets to print, each of which weighs as much as many answers. */
const kNotKept = ['/api/changes', '/api/openapi.json', '/api/print/'];

self.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(kShell)
      .then((cache) => cache.addAll(kFiles))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => name.startsWith('sowtide-shell-') && name !== kShell)
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  );
});

async function keep(request, response) {
  const cache = await caches.open(kAnswers);
  await cache.put(request, response);
  const kept = await cache.keys();
  for (const old of kept.slice(0, Math.max(0, kept.length - kMostAnswers))) await cache.delete(old);
}

async function keptAnswer(request) {
  const kept = await (await caches.open(kAnswers)).match(request);
  if (!kept) return undefined;
  const headers = new Headers(kept.headers);
  headers.set(kKeptHeader, '1');
  return new Response(await kept.blob(), { status: kept.status, headers });
}

async function answer(event) {
  const { request } = event;
  const fresh = fetch(request).then((response) => {
    if (response.status === 200) event.waitUntil(keep(request, response.clone()));
    return response;
  });
  // What is late is still kept for the next time, so it must not be reported as unhandled.
  fresh.catch(() => undefined);
  const silence = new Promise((resolve) => setTimeout(resolve, kPatienceMs));
  try {
    const first = await Promise.race([fresh, silence]);
    return first ?? (await keptAnswer(request)) ?? (await fresh);
  } catch (problem) {
    const kept = await keptAnswer(request);
    if (kept) return kept;
    throw problem;
  }
}

/** The page: from the server while it can be reached, so that a new version is not missed; else as kept. */
async function page(request) {
  try {
    const response = await fetch(request);
    if (response.ok) return response;
  } catch {
    // Falls through to what was kept.
  }
  return (await (await caches.open(kShell)).match('/')) ?? Response.error();
}

async function file(request) {
  return (await (await caches.open(kShell)).match(request)) ?? fetch(request);
}

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (url.pathname.startsWith('/api/')) {
    if (!kNotKept.some((beginning) => url.pathname.startsWith(beginning))) event.respondWith(answer(event));
  } else if (request.mode === 'navigate') {
    if (url.pathname === '/') event.respondWith(page(request));
  } else {
    event.respondWith(file(request));
  }
});
