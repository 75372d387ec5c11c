import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const folder = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** The page. Addresses are relative and nothing is inlined, so one bundle serves both shells under a strict content policy. */
export default defineConfig({
  root: folder('renderer'),
  base: './',
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: folder('.build/renderer'),
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    license: { fileName: 'licences.txt' },
    chunkSizeWarningLimit: 2000,
  },
});
