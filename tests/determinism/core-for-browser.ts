import { fileURLToPath } from 'node:url';
import { build } from 'vite';

/** The core and what is to be called in the page as one script, bundled and minified as the page's own bundle is. */
export async function coreForBrowser(entry: URL): Promise<string> {
  const built = await build({
    configFile: false,
    logLevel: 'error',
    build: {
      write: false,
      minify: true,
      target: 'es2022',
      lib: { entry: fileURLToPath(entry), formats: ['iife'], name: 'bundle' },
    },
  });
  const [result] = Array.isArray(built) ? built : [built];
  if (!result || !('output' in result)) throw new Error('The bundle for the browser was not built.');
  return result.output[0].code;
}
