import { mkdirSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { CORE_VERSION } from '../../sim-core/index.ts';

/** What a campaign asked for and got. Kept under tests/evidence/, one file a campaign; nothing in it says when or where it ran. */
export interface Evidence {
  campaign: string;
  seed: number;
  /** What is claimed, as figures. */
  asked: Record<string, unknown>;
  /** What was found, in the same words where there is a figure for it. */
  got: Record<string, unknown>;
  holds: boolean;
  /** What limits the result, and what was not tried. */
  notes: string[];
}

export interface CampaignOptions {
  /** A short campaign that shows that everything works; it keeps no report. */
  quick: boolean;
  /** After this long no further case is begun. */
  minutes: number;
}

/**
 * What was asked for on the command line: `--quick`, `--minutes N`. Throws where something else was.
 * @param others options that the campaign reads itself, each with a value
 */
export function campaignOptions(minutes: number, others: readonly string[] = []): CampaignOptions {
  const own = Object.fromEntries(others.map((name) => [name, { type: 'string' as const }]));
  const { values } = parseArgs({ options: { ...own, quick: { type: 'boolean' }, minutes: { type: 'string' } } });
  const asked = values.minutes === undefined ? minutes : Number(values.minutes);
  if (!(asked > 0)) throw new Error(`--minutes takes a number above 0, not "${values.minutes}".`);
  return { quick: values.quick ?? false, minutes: asked };
}

/** Keeps the report unless the campaign was a quick one, prints its one line, and lets the process fail where the claim does not hold. */
export function keepEvidence(evidence: Evidence, summary: string, options: CampaignOptions): void {
  if (!options.quick) {
    const folder = new URL('../evidence/', import.meta.url);
    mkdirSync(folder, { recursive: true });
    const { campaign, ...rest } = evidence;
    const kept = { campaign, coreVersion: CORE_VERSION, ...rest };
    writeFileSync(new URL(`${campaign}.json`, folder), `${JSON.stringify(kept, null, 2)}\n`);
  }
  process.stdout.write(`${evidence.campaign}: ${evidence.holds ? 'holds' : 'DOES NOT HOLD'}; ${summary}\n`);
  if (!evidence.holds) process.exitCode = 1;
}
