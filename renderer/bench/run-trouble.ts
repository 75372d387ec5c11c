import { errorWords } from '../app/error-words.ts';
import { HostError } from '../app/host-client.ts';
import { say } from '../text/say.ts';

/**
 * What keeps a run from being kept, in a sentence. The host's absence has a sentence of its own: the usual one asks to close the
 * page, and this page is the only place where the run is.
 * @param ended the run is over, and was not kept
 */
export function runTrouble(error: unknown, ended: boolean): string {
  if (error instanceof HostError && error.code === 'unreachable') return say(ended ? 'bench.host-gone.ended' : 'bench.host-gone');
  return errorWords(error);
}
