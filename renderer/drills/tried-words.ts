import { say } from '../text/say.ts';

/** How often a drill was tried: once, twice, three and more times by the figure. */
export function triedWords(tries: number): string {
  if (tries === 1) return say('home.drill.tried-once');
  return tries === 2 ? say('home.drill.tried-twice') : say('home.drill.tried', { tries });
}
