import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type Plugin } from 'vite';

/** Writes /worker.js with the names of all files of the page, so that they are kept for use off the network. */
function serviceWorker(): Plugin {
  return {
    name: 'sowtide-service-worker',
    apply: 'build',
    generateBundle(_, bundle) {
      const fromPublic = readdirSync('public').map((name) => `/${name}`);
      const built = Object.keys(bundle)
        .filter((name) => name !== 'index.html')
        .map((name) => `/${name}`);
      const files = ['/', ...built, ...fromPublic].sort();
      const version = createHash('sha256');
      // The names of built files change with their content; those of public/ do not.
      version.update(JSON.stringify(files));
      for (const name of fromPublic) version.update(readFileSync(`public${name}`));
      const source = readFileSync('worker.js', 'utf8')
        .replace('__VERSION__', version.digest('hex').slice(0, 12))
        .replace('__FILES__', JSON.stringify(files));
      this.emitFile({ type: 'asset', fileName: 'worker.js', source });
    },
  };
}

// The page asks nothing of any other host, so everything is bundled, and nothing is inlined as a data: script or
// style: the server's content policy forbids it.
export default defineConfig({
  plugins: [svelte(), serviceWorker()],
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: { host: '127.0.0.1', port: 5173, proxy: { '/api': 'http://127.0.0.1:4173' } },
});
