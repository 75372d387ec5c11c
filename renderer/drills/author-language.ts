import type { DrillSummary } from '../../electron/contract.ts';

/** The language a drill's own words are known to be in, for readers of the screen: what is shipped is English; of others nobody knows. */
export function authorLanguage(drill: Pick<DrillSummary, 'source'> | undefined): 'en' | undefined {
  return drill?.source === 'shipped' ? 'en' : undefined;
}
