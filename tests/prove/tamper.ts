// npm run prove:tamper: one byte of a signed run changed, put in or taken out, in the run file or in the verdict file beside it; and
// the run file changed and sealed again. Every one is told.

import { encodeVerdict, signVerdict } from '../../electron/host/papers/sign-verdict.ts';
import { makeSigningKey, readPublicKey } from '../../electron/host/papers/signing-key.ts';
import { realRunText, TEST_SCRYPT_N, verdictOn } from '../papers/signed-run.ts';
import { sealedAgain } from '../security/hostile/sealed-again.ts';
import { isTold, tamper } from '../security/hostile/tamper.ts';
import { campaignOptions, keepEvidence } from './evidence.ts';

const SEED = 20261130;
const PER_WAY = { run: 5000, verdict: 5000, resealed: 1000 };
const QUICK_SHARE = 0.02;

const options = campaignOptions(30);
const until = Date.now() + options.minutes * 60_000;
const random = { counter: SEED };
const runText = realRunText(3);
const key = await makeSigningKey('three planks of oak', TEST_SCRYPT_N);
const publicKey = readPublicKey(key.publicKeyPem);
const verdict = encodeVerdict(await signVerdict(verdictOn(runText), key, 'three planks of oak'));
// What is sealed again: a change in the seal itself would be undone by that, and the file be the one that was signed.
const firstLine = Buffer.from(runText.slice(0, runText.indexOf('\n')), 'utf8');
const papers = { run: Buffer.from(runText, 'utf8'), verdict: Buffer.from(verdict, 'utf8') };
if (isTold(papers, 'run', papers.run, publicKey)) throw new Error('The signed run is told as another before it was touched.');

const tried = { run: 0, verdict: 0, resealed: 0 };
const untold: string[] = [];
const asked = Object.fromEntries(
  Object.entries(PER_WAY).map(([way, count]) => [way, Math.ceil(count * (options.quick ? QUICK_SHARE : 1))]),
);
for (const way of Object.keys(tried) as (keyof typeof tried)[]) {
  const paper = way === 'verdict' ? 'verdict' : 'run';
  while (tried[way] < asked[way]! && Date.now() < until) {
    const bytes = way === 'resealed' ? sealedAgain(tamper(firstLine, random)) : tamper(papers[paper], random);
    if (!isTold(papers, paper, bytes, publicKey)) untold.push(`${way} ${tried[way]}`);
    tried[way]++;
  }
}

const sum = (counts: Record<string, number>) => Object.values(counts).reduce((total, count) => total + count, 0);
keepEvidence(
  {
    campaign: 'tamper',
    seed: SEED,
    asked: { ...asked, untold: 0 },
    got: { ...tried, untold: untold.length, which: untold.slice(0, 20) },
    holds: sum(tried) === sum(asked) && untold.length === 0,
    notes: [
      'No byte of the two files is free: layout counts as content in both. The signing key is made anew at each run, so that the places are the same and the bytes of key and signature are not.',
      'Sealed again: a change of the first line of the run file with the digest in its second line made to fit, which the verdict on it must tell.',
    ],
  },
  `${sum(tried)} of ${sum(asked)} changes: ${untold.length} untold`,
  options,
);
