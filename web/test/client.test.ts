import { afterEach, describe, expect, it, vi } from 'vitest';
import { getGarden, getToday } from '../src/api/client';

afterEach(() => vi.unstubAllGlobals());

describe('an answer that the device had kept', () => {
  it('is told with that answer, whatever else is asked at the same time', async () => {
    const answer = (path: string) =>
      new Response('{}', path === '/api/garden' ? { headers: { 'X-Sowtide-Kept': '1' } } : {});
    vi.stubGlobal('fetch', (path: string) => Promise.resolve(answer(path)));
    const [garden, today] = await Promise.all([getGarden(), getToday()]);
    expect(garden.kept).toBe(true);
    expect(today.kept).toBe(false);
    expect((await getGarden()).kept).toBe(true);
  });
});
