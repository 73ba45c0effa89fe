/** Builds the client into web/dist. `vite web` serves it while it is written, with the API of a running server behind it. */
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vite';

const api = process.env['COVERLAST_API'] ?? 'http://localhost:4180';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  plugins: [svelte({ configFile: fileURLToPath(new URL('./svelte.config.js', import.meta.url)) })],
  build: {
    target: 'es2022',
    outDir: 'dist',
    emptyOutDir: true,
    // Every file stays a file of its own: the page's policy allows neither inline script nor data: fonts.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: {
    proxy: {
      '/api': {
        target: api,
        changeOrigin: true,
        configure: (proxy) => proxy.on('proxyReq', (request) => request.removeHeader('origin')),
      },
    },
  },
});
