// npm run prove:faults: a real host is killed at random moments, and its place of records and its machine are made to fail. What was
// acknowledged must be found again, whole, and a sentence must say what happened. `--part kills` or `--part places` runs one half.
import { parseArgs } from 'node:util';
import { campaignOptions, keepEvidence } from './evidence.ts';
import { buildLoopback } from './fault-host.ts';
import type { KillCounts } from './kill-ground.ts';
import { type KilledWhile, killCampaign } from './kills.ts';
import { type PlaceFault, placeFaults } from './place-faults.ts';

const SEED = 20261129;
const KILLS = 500;
const QUICK_KILLS = 12;
const ROUNDS = 12;
const QUICK_ROUNDS = 2;
const PARTS = ['kills', 'places'];

const { part } = parseArgs({ options: { part: { type: 'string' } }, strict: false }).values;
if (part !== undefined && !PARTS.includes(String(part))) throw new Error(`--part takes ${PARTS.join(' or ')}, not "${part}".`);
const options = campaignOptions(120, ['part']);
const untilMs = Date.now() + options.minutes * 60_000;
const asked = options.quick ? QUICK_KILLS : KILLS;

await buildLoopback();
const places: Record<string, PlaceFault | null> =
  part === 'kills' ? {} : await placeFaults(options.quick ? QUICK_ROUNDS : ROUNDS, { counter: SEED });
const kills: Partial<Record<KilledWhile, KillCounts>> = part === 'places' ? {} : await killCampaign(asked, SEED, untilMs);

const killed = Object.values(kills);
const placed = Object.values(places).filter((fault) => fault !== null);
const all = [...killed, ...placed];
const total = (of: (one: (typeof killed)[number]) => number) => killed.reduce((sum, one) => sum + of(one), 0);
const done = total((one) => one.kills);
const lost = all.flatMap((one) => one.lost);
const corrupt = all.flatMap((one) => one.corrupt);
const silent = Object.entries(places).flatMap(([name, fault]) =>
  fault !== null && name !== 'host suspended' && fault.sentences.length === 0 ? [name] : [],
);
const skipped = Object.entries(places).flatMap(([name, fault]) => (fault === null ? [name] : []));
const acknowledged = all.reduce((sum, one) => sum + one.acknowledged, 0);

for (const line of [...lost, ...corrupt]) process.stderr.write(`${line}\n`);
keepEvidence(
  {
    campaign: 'faults',
    seed: SEED,
    asked: { kills: part === 'places' ? 0 : asked, lost: 0, corrupt: 0, withoutSentence: 0 },
    got: {
      ...{ kills: done, inTheMiddle: total((one) => one.inTheMiddle), acknowledged, lost: lost.length, corrupt: corrupt.length },
      ...{ withoutSentence: silent.length, killsByWork: kills, faultsOfPlace: places },
    },
    holds: (part === 'places' || done === asked) && lost.length + corrupt.length + silent.length === 0,
    notes: [
      'The host is the loopback shell with its worker, each one file, on Linux. A kill ends the process, not the machine: what the operating system had taken is kept, so that power loss is not tried.',
      'Seeded are what is done and how far it comes; the moment within that is a share of the time it takes, so that the same kill falls elsewhere on another machine.',
      'The clock is set back for the program alone, 40 days. A host that is suspended tells nothing itself; the page does after 5 s, and a test of the page’s recorder holds it to that.',
      ...(skipped.length > 0 ? [`Not tried, because file systems may not be mounted here: ${skipped.join(', ')}.`] : []),
      ...(part === undefined ? [] : [`Only the part "${part}" was run.`]),
    ],
  },
  `${done} kills (${total((one) => one.inTheMiddle)} in the middle), ${placed.reduce((sum, one) => sum + one.times, 0)} other faults, ${acknowledged} acknowledged: ${lost.length} lost, ${corrupt.length} corrupt, ${silent.length} without a sentence`,
  options,
);
