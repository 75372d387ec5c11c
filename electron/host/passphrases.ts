import { HostError } from './host-error.ts';
import type { RecordsDatabase, RecordsTables } from './records-tables.ts';
import { hashPassphrase, isPassphrase, type PassphraseHash, type ScryptCost } from './scrypt-passphrase.ts';

/** So many wrong passphrases in a row are answered at once; then each further one doubles the wait. */
const FREE_TRIES = 3;
const FIRST_WAIT_S = 2;
const LONGEST_WAIT_S = 15 * 60;

export interface Passphrases {
  /** People who have one. */
  holders(): Promise<string[]>;
  /** Ready to be kept: slow, so it is done before a transaction begins. */
  hash(passphrase: string): Promise<PassphraseHash>;
  keep(step: RecordsDatabase, personId: string, hash: PassphraseHash): Promise<void>;
  /** @throws HostError 'conflict' (has none), 'wait', 'wrong-passphrase' */
  mustFit(personId: string, passphrase: string): Promise<void>;
}

function rowOf(step: RecordsDatabase, personId: string) {
  return step.selectFrom('passphrases').selectAll().where('person_id', '=', personId).executeTakeFirst();
}

function hashOf({ scrypt_n, scrypt_r, scrypt_p, salt, hash }: RecordsTables['passphrases']): PassphraseHash {
  return { n: scrypt_n, r: scrypt_r, p: scrypt_p, salt, hash };
}

/** The passphrase of a person as it is kept; null where there is none. Looking at it counts as no try. */
export async function keptPassphrase(step: RecordsDatabase, personId: string): Promise<PassphraseHash | null> {
  const row = await rowOf(step, personId);
  return row ? hashOf(row) : null;
}

/**
 * Passphrases and how often each was guessed wrong. The count is on disk before a guess is looked at, so that neither ending the
 * program nor many guesses at once get around the waits.
 * @param nowMs the time of day, ms since 1970: waits go on while the program is closed
 */
export function createPassphrases(
  db: RecordsDatabase,
  cost: ScryptCost | undefined,
  nowMs: () => number = Date.now,
): Passphrases {
  /** Counts a try, which stands as a wrong one until it was found right. */
  async function countTry(personId: string): Promise<PassphraseHash> {
    return await db.transaction().execute(async (step) => {
      const row = await rowOf(step, personId);
      if (!row) throw new HostError('conflict', 'This person has no passphrase yet; an instructor has to give one.');
      const waitS = Math.ceil((row.next_try_ms - nowMs()) / 1000);
      // A clock that was set back must not lock anybody out for longer than the longest wait.
      if (waitS > 0 && waitS <= LONGEST_WAIT_S)
        throw new HostError('wait', `After ${row.wrong_tries} wrong passphrases the next try is possible in ${inWords(waitS)}.`);
      const tries = row.wrong_tries + 1;
      await step
        .updateTable('passphrases')
        .set({ wrong_tries: tries, next_try_ms: nowMs() + waitAfterS(tries) * 1000 })
        .where('person_id', '=', personId)
        .execute();
      return hashOf(row);
    });
  }

  return {
    async holders() {
      const rows = await db.selectFrom('passphrases').select('person_id').orderBy('person_id').execute();
      return rows.map((row) => row.person_id);
    },
    hash: (passphrase) => hashPassphrase(passphrase, cost),
    async keep(step, personId, { n, r, p, salt, hash }) {
      const row = { scrypt_n: n, scrypt_r: r, scrypt_p: p, salt, hash, wrong_tries: 0, next_try_ms: 0 };
      await step
        .insertInto('passphrases')
        .values({ person_id: personId, ...row })
        .onConflict((conflict) => conflict.column('person_id').doUpdateSet(row))
        .execute();
    },
    async mustFit(personId, passphrase) {
      const kept = await countTry(personId);
      if (!(await isPassphrase(passphrase, kept))) throw new HostError('wrong-passphrase', 'That is not the passphrase.');
      await db
        .updateTable('passphrases')
        .set({ wrong_tries: 0, next_try_ms: 0 })
        .where('person_id', '=', personId)
        .where('hash', '=', kept.hash)
        .execute();
    },
  };
}

function waitAfterS(wrongTries: number): number {
  return wrongTries < FREE_TRIES ? 0 : Math.min(LONGEST_WAIT_S, FIRST_WAIT_S * 2 ** Math.min(wrongTries - FREE_TRIES, 20));
}

function inWords(seconds: number): string {
  if (seconds === 1) return '1 second';
  return seconds < 120 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`;
}
