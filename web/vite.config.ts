import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

// The page asks nothing of any other host, so everything is bundled, and nothing is inlined as a data: script or
// style: the server's content policy forbids it.
export default defineConfig({
  plugins: [svelte()],
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: { host: '127.0.0.1', port: 5173, proxy: { '/api': 'http://127.0.0.1:4173' } },
});
