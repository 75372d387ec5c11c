import type { Hand, SpeedGuess } from '../../electron/contract.ts';
import type { Diagnosis, Drill, HandScale, RigChoices, Score, StoredTrace } from '../../sim-core/index.ts';
import type { RecordedDigests } from '../bench/worker-messages.ts';
import { onOtherPerson } from '../register/signed-in.ts';

/** Everything the review shows of a run, wherever it came from. */
export interface ReviewedRun {
  id: string;
  drill: Drill;
  seed: number;
  choices: RigChoices | null;
  diagnosis: Diagnosis | null;
  coreVersion: string;
  hand: Hand;
  /** How the hand was measured; null where it was not. */
  handScale: HandScale | null;
  personName: string | null;
  state: 'finished' | 'unfinished' | 'abandoned' | 'open';
  inputs: Uint8Array;
  tickCount: number;
  score: Score | null;
  trace: StoredTrace | null;
  recorded: RecordedDigests | null;
  /** Why the run is not in the records, in a sentence, and what its file needs besides; null where it is there. */
  notKept: NotKept | null;
  /** When it was handed in for a verdict; absent or null where it was not. */
  handedInAt?: string | null;
  /** How whoever cut it guessed its speed before any mark; null where nobody was asked, or answered. */
  guess: SpeedGuess | null;
  /** Just cut, and asked for a guess: its marks come after the one thing to change. */
  justGuessed?: boolean;
}

export interface NotKept {
  reason: string;
  /** Text of the drill's very version. */
  drillText: string;
}

/** Name in the address of a run that could not be kept. */
export const UNKEPT_RUN_ID = 'just-now';

let fresh: ReviewedRun | null = null;

onOtherPerson(() => {
  fresh = null;
});

/** The run that was just cut goes from the bench to the review by hand: its score shows at once, even where nothing can be kept. */
export function handOver(run: ReviewedRun): void {
  fresh = run;
}

/**
 * The run that was just cut, once: what the records say of it from then on, to whoever is signed in by then, is for them to say.
 * Only a run that is not kept has nowhere else to come from: it stays for as long as the person does.
 */
export function takeFreshRun(id: string): ReviewedRun | null {
  if (fresh?.id !== id) return null;
  const run = fresh;
  if (run.notKept === null) fresh = null;
  return run;
}
