import { randomUUID } from 'node:crypto';
import { sql } from 'kysely';
import type { Note, ParsedRequest, Person, Reply, RunRecord, RunTrust, UnreadableVerdict, VerdictRecord } from '../contract.ts';
import type { HandOutFile } from './hand-out-file.ts';
import { HostError } from './host-error.ts';
import type { Ledger } from './ledger.ts';
import { mustFitMarks, ownMarks } from './overruled-marks.ts';
import { checkVerdict, readVerdict } from './papers/check-verdict.ts';
import { encodeVerdict, signVerdict } from './papers/sign-verdict.ts';
import { publicKeyOrNull } from './papers/signing-key.ts';
import {
  runDigestOf,
  type SignedVerdict,
  VERDICT_FORMAT,
  VERDICT_FORMAT_VERSION,
  VERDICT_SUFFIX,
  type VerdictPayload,
} from './papers/verdict.ts';
import type { Passphrases } from './passphrases.ts';
import { personName } from './people.ts';
import type { RecordsDatabase } from './records-tables.ts';
import { runFileName, runFileText } from './run-exchange.ts';
import type { RunShelf } from './run-shelf.ts';
import type { OffLedger, RunTrusts } from './run-trust.ts';
import type { SigningKeys } from './signing-keys.ts';

export interface Verdicts {
  /** @throws HostError 'conflict' (not handed in, not to be trusted), 'wrong-passphrase', 'wait' */
  sign(request: ParsedRequest<'signVerdict'>, assessor: Person): Promise<VerdictRecord>;
  /** Newest first: the first one counts, whether it can be read or not. */
  list(runId: string): Promise<(VerdictRecord | UnreadableVerdict)[]>;
  /** @throws HostError 'not-found' */
  export(runId: string): Promise<Reply<'exportVerdict'>>;
  exportKey(person: Person): Promise<Reply<'exportPublicKey'>>;
  addNote(request: ParsedRequest<'addNote'>, by: Person): Promise<Note>;
  notes(runId: string): Promise<Note[]>;
}

export interface VerdictsNeeds {
  db: RecordsDatabase;
  shelf: RunShelf;
  passphrases: Passphrases;
  keys: SigningKeys;
  ledger: Ledger;
  handOut: HandOutFile;
  trusts: RunTrusts;
}

/** Why one that cannot be read is not handed out. @param sentence what is wrong with it */
export function noVerdict(sentence: string): HostError {
  return new HostError('damaged', `The verdict on this run cannot be read: ${sentence}`);
}

/** What assessors say of runs. Nothing here is ever changed: a later verdict stands beside the one before it. */
export function createVerdicts({ db, shelf, passphrases, keys, ledger, handOut, trusts }: VerdictsNeeds): Verdicts {
  const rowsOf = (runId: string) =>
    db
      .selectFrom('verdicts')
      .innerJoin('people', 'people.id', 'verdicts.person_id')
      .select([
        'verdicts.id',
        'verdicts.person_id',
        'verdicts.at',
        'verdicts.document',
        'verdicts.trust',
        'people.role',
        'people.number',
      ])
      .where('run_id', '=', runId)
      // In the order of signing: a clock may have been set back between two of them.
      .orderBy(sql.ref('verdicts.rowid'), 'desc')
      .execute();

  /**
   * The document is held against key and run each time it is looked at: a changed record does not pass as signed.
   * @param off what the ledger says against the run; a verdict names no apprentice, so that it fits under any name
   */
  async function shown(
    { id, assessorId, assessor, trust }: { id: string; assessorId: string; assessor: string; trust: string },
    { payload, keyId, signature }: SignedVerdict,
    runText: string,
    off: OffLedger | null,
  ): Promise<VerdictRecord> {
    const pem = await keys.publicPemOf(keyId, assessorId);
    const key = pem === null ? null : publicKeyOrNull(pem);
    const named = `key ${keyId.slice(0, 16)} of ${assessor}`;
    const noKey = pem === null ? `No ${named} is known here.` : `The ${named} was spoilt in these records and cannot be read.`;
    const held = key ? checkVerdict({ payload, keyId, signature }, key, runText) : { check: 'other-key' as const, reason: noKey };
    const { check, reason } = held.check === 'fits' && off ? { check: 'other-run' as const, reason: off.sentence } : held;
    const { runId, at, decision, reasons, score, marks, overruled } = payload;
    const verdict = { id, runId, assessorId, assessor, at, decision, reasons, score, marks, overruled, keyId };
    return { ...verdict, trust: trust as RunTrust, check, checkSentence: reason };
  }

  async function keep(signed: SignedVerdict, assessor: Person, trust: RunTrust, replaces: string | null): Promise<string> {
    const { payload } = signed;
    const id = randomUUID();
    const { runId, decision, at } = payload;
    await db.transaction().execute(async (step) => {
      const row = { id, run_id: runId, person_id: assessor.id, at, document: encodeVerdict(signed), trust };
      await step.insertInto('verdicts').values(row).execute();
      await step.updateTable('runs').set({ decision, decided_at: at, decided_by: assessor.id }).where('id', '=', runId).execute();
      const entry = { who: assessor.id, subject: runId };
      const { runDigest, drillDigest, reasons } = payload;
      const body = {
        verdictId: id,
        decision,
        reasons,
        runDigest,
        drillDigest,
        trust,
        replaces,
        keyId: signed.keyId,
        signature: signed.signature,
      };
      await ledger.add(step, { ...entry, kind: 'verdict', body });
      for (const { measureId, mark, reason } of payload.overruled) {
        const own = payload.marks.find((given) => given.measureId === measureId)?.mark ?? null;
        await ledger.add(step, { ...entry, kind: 'overrule', body: { verdictId: id, measureId, own, mark, reason } });
      }
    });
    await ledger.settle();
    return id;
  }

  return {
    async sign({ runId, decision, reasons, overruled, passphrase }, assessor) {
      const run = await shelf.get(runId);
      const score = mustBeHandedIn(run);
      mustFitMarks(score, overruled);
      const { trust, sentence } = await trusts.of(run);
      if (trust === 'different' || trust === 'damaged')
        throw new HostError('conflict', `No verdict can be signed on a run that is not to be trusted. ${sentence}`);
      await passphrases.mustFit(assessor.id, passphrase);
      const before = await rowsOf(runId);
      const runText = runFileText(run);
      const payload: VerdictPayload = {
        format: VERDICT_FORMAT,
        formatVersion: VERDICT_FORMAT_VERSION,
        runId,
        runDigest: runDigestOf(runText),
        drillDigest: run.drillHash,
        score: score.score,
        marks: ownMarks(score),
        overruled,
        decision,
        reasons,
        assessor: assessor.name,
        at: new Date().toISOString(),
      };
      const signed = await signVerdict(payload, await keys.sealedKey(assessor.id, passphrase), passphrase);
      const id = await keep(signed, assessor, trust, before[0]?.id ?? null);
      return await shown({ id, assessorId: assessor.id, assessor: assessor.name, trust }, signed, runText, null);
    },
    async list(runId) {
      const rows = await rowsOf(runId);
      if (rows.length === 0) return [];
      const run = await shelf.get(runId);
      const runText = runFileText(run);
      const off = await trusts.offLedger(run);
      return await Promise.all(
        rows.map(({ id, person_id, role, number, at, trust, document }) => {
          const row = { id, assessorId: person_id, assessor: personName(role, number) };
          const read = readVerdict(document);
          if (!read.ok) return { ...row, at, check: 'unreadable' as const, checkSentence: read.sentence };
          return shown({ ...row, trust }, read.verdict, runText, off);
        }),
      );
    },
    async export(runId) {
      const run = await shelf.get(runId);
      const [newest] = await rowsOf(runId);
      if (!newest) throw new HostError('not-found', 'There is no verdict on this run.');
      const read = readVerdict(newest.document);
      if (!read.ok) throw noVerdict(read.sentence);
      return await handOut(`${runFileName(run)}${VERDICT_SUFFIX}`, newest.document);
    },
    async exportKey(person) {
      const key = await keys.current(person.id);
      if (!key)
        throw new HostError('not-found', `${person.name} has not signed anything yet: the key is made at the first verdict.`);
      return await handOut(`${person.name.toLowerCase().replace(' ', '-')}-${key.keyId.slice(0, 8)}.pem`, key.publicPem);
    },
    async addNote({ runId, tick, text }, by) {
      const run = await shelf.summary(runId);
      if (run.tickCount === 0) throw new HostError('conflict', 'Nothing of this run was cut yet, so a note has no place in it.');
      if (tick > run.tickCount)
        throw new HostError('conflict', `The run ends at tick ${run.tickCount}; a note at ${tick} has no place in it.`);
      const note = { id: randomUUID(), run_id: runId, person_id: by.id, at: new Date().toISOString(), tick, text };
      await db.transaction().execute(async (step) => {
        await step.insertInto('notes').values(note).execute();
        await ledger.add(step, { who: by.id, kind: 'note', subject: runId, body: { noteId: note.id, tick, text } });
      });
      await ledger.settle();
      return { id: note.id, runId, personId: by.id, name: by.name, at: note.at, tick, text };
    },
    async notes(runId) {
      const rows = await db
        .selectFrom('notes')
        .innerJoin('people', 'people.id', 'notes.person_id')
        .select(['notes.id', 'notes.person_id', 'notes.at', 'notes.tick', 'notes.text', 'people.role', 'people.number'])
        .where('run_id', '=', runId)
        .orderBy('tick')
        .orderBy('at')
        .execute();
      return rows.map(({ id, person_id, at, tick, text, role, number }) => {
        return { id, runId, personId: person_id, name: personName(role, number), at, tick, text };
      });
    },
  };
}

function mustBeHandedIn(run: RunRecord): NonNullable<RunRecord['scoreRecord']> {
  if (!run.assessment?.submittedAt)
    throw new HostError('conflict', 'This run was not handed in, so there is nothing to decide on.');
  if (!run.scoreRecord) throw new HostError('conflict', 'This run has no marks to decide on.');
  return run.scoreRecord;
}
