import { defineConfig } from 'vitest/config';

// A far time zone and a comma locale would show any slip into local time or formatting by hand.
process.env.TZ = 'Pacific/Auckland';

export default defineConfig({
  test: { include: ['test/**/*.test.ts'], environment: 'node', testTimeout: 60_000 },
});
