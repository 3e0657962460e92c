import { describe, expect, it } from 'vitest';
import source from '../worker.js?raw';

interface FetchEvent {
  request: { method: string; url: string; mode: string };
  respondWith: (answer: Promise<unknown>) => void;
  waitUntil: (done: Promise<unknown>) => void;
}

const kOrigin = 'http://127.0.0.1:8420';

/** The worker in a scope of its own, and what it has kept after answering one request. */
async function keptOf(path: string): Promise<string[]> {
  const kept: string[] = [];
  const listeners = new Map<string, (event: FetchEvent) => void>();
  const self = {
    addEventListener: (name: string, listener: (event: FetchEvent) => void) => listeners.set(name, listener),
    location: { origin: kOrigin },
  };
  const cache = {
    put: (request: { url: string }) => Promise.resolve(kept.push(request.url)),
    keys: () => Promise.resolve(kept),
  };
  const caches = { open: () => Promise.resolve(cache) };
  const fetched = () => Promise.resolve(new Response('{}'));
  const code = source.replace('__VERSION__', 'test').replace('__FILES__', '[]');
  new Function('self', 'caches', 'fetch', code)(self, caches, fetched);
  const waiting: Promise<unknown>[] = [];
  listeners.get('fetch')?.({
    request: { method: 'GET', url: kOrigin + path, mode: 'cors' },
    respondWith: (answer) => waiting.push(answer),
    waitUntil: (done) => waiting.push(done),
  });
  for (let i = 0; i < waiting.length; i += 1) await waiting[i];
  return kept;
}

describe('the service worker', () => {
  it('keeps an answer for use off the network', async () => {
    expect(await keptOf('/api/outlook')).toEqual([`${kOrigin}/api/outlook`]);
    expect(await keptOf('/api/judge/s1')).toEqual([`${kOrigin}/api/judge/s1`]);
  });
  it('keeps no sheets to print, no stream and nothing for programs', async () => {
    for (const path of [
      '/api/print/labels?paper=a4',
      '/api/print/calendar',
      '/api/changes',
      '/api/openapi.json',
    ])
      expect(await keptOf(path), path).toEqual([]);
  });
});
